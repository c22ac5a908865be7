whichever forecast --as-of 2026-06-15
