COLUMNS=200 whichever due --machine tractor-loader --color always --as-of 2026-06-15
