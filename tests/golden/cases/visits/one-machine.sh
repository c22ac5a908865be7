whichever visits combine --as-of 2026-06-15 | sed '/^What to mind/,/^Afterwards/d'
