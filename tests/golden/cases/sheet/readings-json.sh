whichever sheet --readings pump-trailer sprayer --format json --as-of 2026-06-15
