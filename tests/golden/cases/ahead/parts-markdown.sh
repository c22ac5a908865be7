whichever parts --format md --as-of 2026-06-15
