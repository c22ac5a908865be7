whichever season harvest --machine combine --machine dryer --format json --as-of 2026-06-15
