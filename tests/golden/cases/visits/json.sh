whichever visits --site wullamere --as-of 2026-06-15 --format json
