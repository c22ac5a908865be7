whichever parts --before harvest --format csv --as-of 2026-06-15
