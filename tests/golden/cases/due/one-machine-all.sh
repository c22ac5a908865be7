whichever due --machine tractor-loader --all --as-of 2026-06-15
