whichever forecast generator-standby --as-of 2026-06-15
