whichever due combine --machine dryer --as-of 2026-06-15
whichever due combne --as-of 2026-06-15 || echo "status $?"
