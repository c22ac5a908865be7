# Rounds of three days are done, with machines whose schedules have tasks of one name.
whichever rounds --from 2026-06-15 --as-of 2026-06-14 --format json --output w.json
whichever rounds --from 2026-06-18 --as-of 2026-06-18 --keep w.json | head -n 24
whichever rounds --from 2026-06-18 --as-of 2026-06-18 --keep w.json --format csv | cut -d, -f1-5
