whichever why combine knife --as-of 2026-12-31
