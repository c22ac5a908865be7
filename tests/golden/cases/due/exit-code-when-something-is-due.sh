whichever due --machine tractor-loader --exit-code --as-of 2026-06-15 >/dev/null
