whichever why combine chains --format json --as-of 2026-06-15
