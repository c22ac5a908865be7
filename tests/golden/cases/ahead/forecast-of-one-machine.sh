whichever forecast combine --as-of 2026-06-15
