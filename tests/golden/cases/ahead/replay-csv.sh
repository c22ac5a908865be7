whichever forecast --replay --format csv --as-of 2026-06-15
