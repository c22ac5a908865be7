# One machine is back on Saturday, when nobody works: its brakes are looked at before. Another is back by its stop.
lay_up() { whichever lay-up "$@" --on 2026-06-14 --as-of 2026-06-14 >/dev/null; }
lay_up tractor-loader --until 2026-06-20 --note "bucket is off"
lay_up tractor-drill --until 2026-06-16 --note "battery on the shelf"
rounds="whichever rounds --from 2026-06-15 --as-of 2026-06-15"
$rounds | grep -A3 '^Keep out of use'
$rounds | grep -A7 -E '^[0-9]\. .*(tractor-loader|tractor-drill)'
$rounds | grep -A1 '^Print that of'
$rounds --format md | grep -o 'in use again from[^;|]*'
$rounds --format json --output plan.json
# Without the crew that works last it is wanted all the same.
$rounds --keep plan.json --without fitter | grep -A1 ' - tractor-loader:'
