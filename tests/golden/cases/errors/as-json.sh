whichever due --machine tractor-bg --format json --as-of 2026-06-15
