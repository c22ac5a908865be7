# A calendar says no plan, so whoever makes one anew has to keep the plan too; where nothing changed, nothing is said.
rounds="whichever rounds --from 2026-06-15 --as-of 2026-06-15"
$rounds --format json > plan.json
$rounds --keep plan.json --format ics > /dev/null
$rounds --keep plan.json --without contractor --format ics > /dev/null
