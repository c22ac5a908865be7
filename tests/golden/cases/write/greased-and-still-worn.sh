whichever done sprayer boom-pins --found failed --by E.H. --note "pin turns in its bush" --as-of 2026-06-15
whichever due sprayer --overdue --as-of 2026-06-15
whichever find-out sprayer --as-of 2026-06-15
whichever looked sprayer "boom-pins found failed" --by M.T. --found good --note "new bush" --as-of 2026-06-15
