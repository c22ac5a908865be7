whichever season pumping --odds 5% --as-of 2026-06-15
