whichever rounds --from 2026-06-15 --as-of 2026-06-15 --format json --output plan.json
sed -i 's/"fleet": "[^"]*"/"fleet": "Other estate"/' plan.json
whichever rounds --from 2026-06-17 --as-of 2026-06-17 --keep plan.json || echo "status $?"
whichever rounds --from 2026-06-15 --as-of 2026-06-15 --check plan.json
