whichever due --within 3m --first 5 --as-of 2026-06-15
