whichever sheet --site wullamere --as-of 2026-06-15 --exit-code
