whichever done tractor-big engine-oil --at 2282 --checked --as-of 2026-06-15 || echo "status $?"
