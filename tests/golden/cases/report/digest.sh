whichever report --format text --as-of 2026-06-15
