# Shared out over the whole fleet: the days are those of `parts`.
whichever count oil-filter-tractor 0 --on 2026-06-15 --as-of 2026-06-15 >/dev/null
whichever sheet tractor-drill --as-of 2026-06-15 | grep -E -A1 'oil-filter|not in stock|not counted'
whichever parts tractor-drill --as-of 2026-06-15 | grep -E 'order|oil-filter-tractor'
