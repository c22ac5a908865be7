whichever season harvest --as-of 2026-06-15
