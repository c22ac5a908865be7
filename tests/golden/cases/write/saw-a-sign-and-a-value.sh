whichever saw pump-north gland-drip --as-of 2026-06-15 --note "steady drip"
whichever saw sprayer over-flow=11 --position middle --as-of 2026-06-15
whichever due --machine sprayer --as-of 2026-06-15
