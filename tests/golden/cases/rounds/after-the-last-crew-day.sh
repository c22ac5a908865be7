# A call for safety that is wanted on days of the week on which nobody works any more is in no round, and not lost.
sed -i '/winch-brake/s/from: 2026-06-15, by: 2026-06-20/from: 2026-06-20, by: 2026-06-21/' fleet/fleet.yaml
whichever rounds --from 2026-06-15 --as-of 2026-06-15 | grep -A5 -E '^(Keep out of use|Not this week)|winch-brake at'
whichever rounds --from 2026-06-15 --as-of 2026-06-15 --format json |
  python3 -c 'import json,sys; print([(o["visit"], o["safety"], o["reason"], o["why"]) for o in json.load(sys.stdin)["put_off"] if "winch" in o["visit"]])'
