whichever season harvest --site quernholt --as-of 2026-08-20
