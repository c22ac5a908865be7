whichever workload --within 3m --site quernholt --format json --as-of 2026-06-15
