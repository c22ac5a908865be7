whichever rounds --from 2026-06-15 --as-of 2026-06-15 --format json --output plan.json
whichever put-off tractor-big greasing --until 2026-07-01 --by M.T. --note "hay first" --as-of 2026-06-15 >out 2>&1 || cat out
whichever rounds --from 2026-06-15 --as-of 2026-06-15 --keep plan.json | sed -n '1,/^====/p'
