# A promise that nobody goes for any more, for its machine is laid up, is broken; one of a misspelt name is asked back.
whichever rounds --from 2026-06-15 --as-of 2026-06-15 --format json --output plan.json
promise() {
  python3 - "$@" <<'P'
import json, sys
plan = json.load(open("plan.json"))
for round in plan["rounds"]:
    for stop in round["stops"]:
        if stop["visit"] == sys.argv[1]:
            stop["promised"] = True
            stop["visit"] = stop["machine"] = sys.argv[2]
json.dump(plan, open("kept.json", "w"))
P
}
keep() { whichever rounds --from 2026-06-15 --as-of 2026-06-15 --keep kept.json "$@" || echo "status $?"; }
promise tractor-drill tractor-dril
keep
promise tractor-drill tractor-drill
whichever lay-up tractor-drill --on 2026-06-15 --note "battery on the shelf" --as-of 2026-06-15 >/dev/null
keep | sed -n '1,/^====/p'
keep --format json | python3 -c 'import json,sys; print(json.load(sys.stdin)["promises"])'
