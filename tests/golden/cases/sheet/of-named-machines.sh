whichever sheet tractor-big telehandler-yard sprayer --as-of 2026-06-15
