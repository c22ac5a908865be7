whichever parts tractor-drill combine --before harvest --as-of 2026-06-15
