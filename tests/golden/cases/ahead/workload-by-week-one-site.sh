whichever workload --by week --within 8w --site wullamere --as-of 2026-06-15
