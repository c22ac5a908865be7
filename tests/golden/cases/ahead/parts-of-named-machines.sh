whichever parts combine --as-of 2026-06-15
whichever parts combine --format md --as-of 2026-06-15
