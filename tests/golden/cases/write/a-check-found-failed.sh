whichever done tractor-loader brakes --found failed --by E.H. --note "pedal to the floor" --as-of 2026-06-15
whichever done tractor-loader big-service --checked --dry-run --as-of 2026-06-15
whichever saw tractor-big restricton=9 --as-of 2026-06-15
whichever looked telehandler-store leak --note tightened --by M.T. --found good --as-of 2026-06-15
whichever why telehandler-store hoses --as-of 2026-06-15 | head -14
whichever due tractor-loader tractor-big --overdue --as-of 2026-06-15
whichever looked tractor-loader Brakes found failed --by M.T. --found good --note "bled, holds" --as-of 2026-06-15
