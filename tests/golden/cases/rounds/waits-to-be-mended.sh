# No visit is planned for what was found failed. Whoever comes to its site is told, and what waits where nobody goes
# stands behind the plan.
whichever done pump-north guards --found failed --by M.T. --on 2026-06-15 --as-of 2026-06-15 >/dev/null
rounds="whichever rounds --from 2026-06-17 --days 1 --without contractor --as-of 2026-06-15"
$rounds | grep -A3 '^Waits\|waits to\|^Seen'
$rounds --format csv | grep -o 'to-mend,.*,pump-north\|guards,.*guards found failed'
$rounds --format md | grep -A2 -o 'waits to .*\|## Waits.*\|- .*guards.*'
