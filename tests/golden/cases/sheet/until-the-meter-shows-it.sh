# A delay by use is told by what the meter shows, the same in every place; its day does not lie in the past.
whichever put-off tractor-drill engine-oil --until +30h --note x --by M.T. --as-of 2026-06-15 >/dev/null
whichever sheet tractor-drill --within 6w --as-of 2026-06-15 | grep -A 1 4914.3
