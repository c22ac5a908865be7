whichever reading tractor-big 2400 --as-of 2026-06-15 || echo "status $?"
whichever reading tractor-big 2290 --as-of 2026-06-15 --dry-run || echo "status $?"
whichever history tractor-big --as-of 2026-06-15 | tail -n 4
