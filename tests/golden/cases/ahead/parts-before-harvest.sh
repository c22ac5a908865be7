whichever parts --before harvest --as-of 2026-06-15
