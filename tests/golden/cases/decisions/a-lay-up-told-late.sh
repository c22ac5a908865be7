# What a meter shows of days on which the machine stood, as is told now, is asked about when it is told.
whichever lay-up tractor-drill --on 2026-06-01 --until 2026-12-01 --as-of 2026-06-15
whichever undo --as-of 2026-06-15 >/dev/null
whichever out-of-use tractor-drill --on 2026-06-01 --as-of 2026-06-15 --format json | sed -n '/"newly_asked"/,/]/p'
whichever undo --as-of 2026-06-15 >/dev/null
echo '--- its planned day has come'
whichever lay-up tractor-drill --on 2026-05-01 --until 2026-06-10 --note "must not run" --as-of 2026-06-15
