whichever sheet --readings --site wullamere --format html --as-of 2026-06-15
