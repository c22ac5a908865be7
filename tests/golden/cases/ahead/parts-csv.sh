whichever parts --format csv --as-of 2026-06-15
