whichever visits combine --within 1w --as-of 2026-06-15 --exit-code
whichever visits telehandler-yard --within 1w --as-of 2026-06-15 --exit-code || echo "status $?"
whichever visits --site slipway --as-of 2026-06-15
