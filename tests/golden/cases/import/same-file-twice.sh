whichever export >before.csv
whichever import fleet/facts.csv --as-of 2026-06-15
whichever export | cmp - before.csv
