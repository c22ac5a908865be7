whichever sheet --readings --as-of 2026-06-15
