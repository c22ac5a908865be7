whichever visits --as-of 2025-12-10 --within 6w | sed '/^What to mind/,/^Afterwards/d'
