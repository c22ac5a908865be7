whichever season harvest combine dryer --as-of 2026-06-15
whichever season harvest combine dryer --as-of 2026-06-15 >words
whichever season harvest --machine combine --machine dryer --as-of 2026-06-15 | cmp - words
