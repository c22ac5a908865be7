# One customer is told of no work at another's that the kept plan is taken to have done, nor of what that took.
whichever rounds --from 2026-06-15 --as-of 2026-06-14 --format json --output plan.json
for site in steading wullamere; do
  whichever rounds --from 2026-06-18 --as-of 2026-06-18 --keep plan.json --site $site --format json |
    python3 -c 'import json,sys; answer = json.load(sys.stdin); print(answer["scope"], answer["done"], answer["taken_before"])'
done
whichever rounds --from 2026-06-18 --as-of 2026-06-18 --keep plan.json --site wullamere | tail -12
