whichever forecast --replay --as-of 2026-06-15
