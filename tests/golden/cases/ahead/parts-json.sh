whichever parts --within 1m --format json --as-of 2026-06-15
