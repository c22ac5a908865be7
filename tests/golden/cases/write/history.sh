whichever history pump-south --as-of 2026-06-15
