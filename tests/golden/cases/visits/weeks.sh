whichever visits --as-of 2026-06-15
