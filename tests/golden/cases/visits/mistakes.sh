said() { whichever "$@" --as-of 2026-06-15 || echo "status $?"; }
said visits --within soon
said visits --within 6y
said visits --without contracter
said visits combne
said visits --site slipwy
said visits --first none
said visits --format md
whichever visits --within 1d --as-of 2026-06-13 || echo "status $?"
said trips
grep -v '^costs:' fleet/fleet.yaml >without && mv without fleet/fleet.yaml
said visits
