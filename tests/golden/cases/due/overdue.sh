whichever due --overdue --as-of 2026-06-15
