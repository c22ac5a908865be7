whichever due --site quernholt --format csv --as-of 2026-06-15
