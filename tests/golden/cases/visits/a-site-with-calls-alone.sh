# No machine stands at this site, and yet somebody has to go: for a call, which is in no visit.
whichever visits --site slipway --as-of 2026-06-15 --exit-code || echo "status $?"
whichever visits --site slipway --as-of 2026-06-15 --format json |
  python3 -c 'import json,sys; answer = json.load(sys.stdin); print(answer["calls"], answer["gaps"])'
whichever visits --site slipway --as-of 2026-06-15 --format csv | grep -o '^call.*'
