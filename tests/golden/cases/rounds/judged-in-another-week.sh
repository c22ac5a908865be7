# Asked about the week before that of the plan, it is judged by that week, and not by all days up to its own end.
whichever rounds --from 2026-06-15 --as-of 2026-06-08 --format json --output plan.json
whichever rounds --from 2026-06-08 --as-of 2026-06-08 --check plan.json | head -12
