whichever workload combine --within 3m --format csv --as-of 2026-06-15
