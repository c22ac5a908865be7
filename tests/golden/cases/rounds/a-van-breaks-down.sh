whichever rounds --from 2026-06-15 --as-of 2026-06-15 --format json --output plan.json
whichever rounds --from 2026-06-16 --as-of 2026-06-16 --keep plan.json --without contractor | sed -n '1,/^====/p'
