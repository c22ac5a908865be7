whichever visits --within 4w --as-of 2026-06-15 --format csv
