whichever visits --site wullamere --within 8w --as-of 2026-06-15
