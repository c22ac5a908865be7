whichever sheet tractor-loader --within 6w --as-of 2026-06-15 | sed -n '/^To do/,$p'
