whichever why sprayer nozzles --as-of 2026-06-15
