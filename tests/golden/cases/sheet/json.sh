whichever sheet pump-north --format json --as-of 2026-06-15
