whichever due --machine tractor-drill --format json --as-of 2026-06-15
