whichever done tractor-big engine-oil --at 2390 --by KL --on 2026-06-15 --as-of 2026-06-15 >/dev/null
whichever sheet tractor-big tractor-yard --as-of 2026-06-15 | sed -n '/^To take/,/^To do/p;/^Checks owed/,/^Measure/p'
