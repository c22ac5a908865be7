whichever parts --as-of 2026-06-15
