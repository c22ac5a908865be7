# What a service answers by no rule stays open, and that is said with how to close it.
day="--as-of 2026-06-15"
whichever saw pump-north "gland weeps and smells" $day >/dev/null
whichever done pump-north gland --on 2026-06-07 --dry-run $day | sed -n '/Still open/,/Take it back/p'
whichever done pump-north gland --on 2026-06-15 --dry-run $day
whichever done pump-north gland --on 2026-06-07 --dry-run --format json $day | sed -n '/"signs_left"/,/]/p'
