# Said before what to take along.
whichever sheet tractor-yard --as-of 2026-06-15 | sed '/^To take along/,$d'
