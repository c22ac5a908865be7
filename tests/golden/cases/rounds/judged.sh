whichever rounds --from 2026-06-15 --as-of 2026-06-15 --format json --output plan.json
whichever rounds --from 2026-06-15 --as-of 2026-06-15 --check plan.json
python3 - <<'P'
import json
plan = json.load(open("plan.json"))
plan["rounds"][0]["stops"][0]["starts"] = "06:00"
plan["rounds"][1]["crew"] = "nobody"
plan["put_off"] = plan["put_off"][1:]
json.dump(plan, open("other.json", "w"))
P
whichever rounds --from 2026-06-15 --as-of 2026-06-15 --check other.json --exit-code || echo "status $?"
whichever rounds --from 2026-06-15 --as-of 2026-06-15 --check other.json --format csv
