whichever mail --site quernholt --as-of 2026-06-16 | python3 -m quopri -d | tr -d '\r' | sed -n '/^Subject/p;/^Must not wait/,/^Overdue/p' | head -n 30
