# Monday's plan kept on Wednesday, with one of its services written down: the others are taken as done, and told.
whichever rounds --from 2026-06-15 --as-of 2026-06-15 --format json > plan.json
whichever done tractor-big engine-oil --on 2026-06-16 --as-of 2026-06-16 > /dev/null
rounds="whichever rounds --from 2026-06-17 --as-of 2026-06-17 --keep plan.json"
$rounds | sed -n '/^Taken as done by/,/^=====/p'
$rounds | grep -A2 '!! tyre@front-right'
$rounds --format csv | grep 'not-in-book.*boom-pins' | cut -d, -f1-4,9,13
$rounds --format json | python3 -c 'import json,sys; print(json.dumps(json.load(sys.stdin)["not_in_book"][1], indent=1))'
