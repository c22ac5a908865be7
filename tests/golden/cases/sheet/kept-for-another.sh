# One filter is there: overdue work has its turn before work that is due, and last comes a machine that must not run.
whichever count oil-filter-tractor 1 --on 2026-06-15 --as-of 2026-06-15 >/dev/null
for machine in tractor-drill tractor-big; do
  whichever sheet $machine --as-of 2026-06-15 | grep -E -A2 'oil-filter-tractor'
  whichever sheet $machine --as-of 2026-06-15 --format json |
    python3 -c 'import json,sys
for part in json.load(sys.stdin)["sheets"][0]["parts"]:
    if part["part"] == "oil-filter-tractor": print(part["short"])'
done
