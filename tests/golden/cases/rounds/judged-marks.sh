# A plan that denies what keeps people away from a machine has a fault; one that says it of more has none.
whichever saw tractor-loader brake-pull --on 2026-06-14 --as-of 2026-06-14 >/dev/null
whichever rounds --from 2026-06-15 --as-of 2026-06-15 --format json --output plan.json
python3 - <<'P'
import json
plan = json.load(open("plan.json"))
fields = ("safety", "do_not_run", "keep_out_of_use")
for name, value in (("denied.json", False), ("said.json", True)):
    for round in plan["rounds"]:
        for stop in round["stops"]:
            for marked in [stop, *stop["tasks"]]:
                if stop["visit"] == "tractor-loader":
                    marked.update({field: value for field in fields})
    json.dump(plan, open(name, "w"))
P
for plan in plan denied said; do whichever rounds --from 2026-06-15 --as-of 2026-06-15 --check $plan.json; done
