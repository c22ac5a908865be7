whichever saw tractor-big tread-depth=31 --as-of 2026-06-15 || echo "status $?"
whichever saw tractor-big tread-depth=31 --position all --as-of 2026-06-15 --dry-run
whichever saw tractor-big rear left tread-depth 14 mm --as-of 2026-06-15 --dry-run | grep -A 3 "was meant"
