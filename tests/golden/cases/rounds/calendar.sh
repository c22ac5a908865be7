whichever rounds --from 2026-06-15 --as-of 2026-06-15 --format ics
