whichever sheet dryer --within 6w --as-of 2026-06-15
