whichever due --as-of 2026-06-15 >/dev/full || echo "status $?"
whichever --help >/dev/full || echo "status $?"
whichever due --as-of 2026-06-15 >&- || echo "status $?"
whichever due --as-of 2026-06-15 | head -n 1
