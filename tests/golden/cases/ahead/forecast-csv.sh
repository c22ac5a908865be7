whichever forecast --within 2m --format csv --as-of 2026-06-15
