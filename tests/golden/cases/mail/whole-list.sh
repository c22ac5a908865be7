whichever mail --as-of 2026-06-16 | python3 -m quopri -d | tr -d '\r' | sed 's/[0-9a-f]\{16\}/NAME/; /<style>/,/<\/style>/d'
