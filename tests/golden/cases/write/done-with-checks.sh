whichever done tractor-big engine-oil --at 2390 --checked --as-of 2026-06-15
