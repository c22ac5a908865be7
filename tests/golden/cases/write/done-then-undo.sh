whichever due --format json --as-of 2026-06-15 >before
whichever done telehandler-store engine-oil hoses --at 1712 --as-of 2026-06-15 --found good
whichever due --machine telehandler-store --as-of 2026-06-15
whichever undo --as-of 2026-06-15
whichever due --format json --as-of 2026-06-15 | cmp - before
