# `parts` has nothing for a machine that stands, so its sheet orders nothing either.
whichever count oil-filter-tractor 0 --on 2026-06-15 --as-of 2026-06-15 >/dev/null
whichever lay-up tractor-big --on 2026-06-15 --as-of 2026-06-15 >/dev/null
whichever sheet tractor-big --as-of 2026-06-15 | grep -A2 'oil-filter-tractor'
parts=$(whichever parts tractor-big --as-of 2026-06-15) && ! echo "$parts" | grep 'oil-filter-tractor' && echo 'parts has none'
visits=$(whichever visits tractor-big --as-of 2026-06-15) && ! echo "$visits" | grep 'not known when' && echo 'visits knows when'
