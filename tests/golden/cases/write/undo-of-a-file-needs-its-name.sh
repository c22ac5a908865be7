# The sample came in as one file. Its id is drawn and its day is the clock's.
! whichever undo --as-of 2026-06-15 2>&1 | sed -E 's/on [0-9-]{10} \(/on DAY (/'
whichever undo "$(whichever export | sed -nE '2s/.*,([0-9a-z]{26})-[0-9]+,.*/\1/p')" --dry-run --as-of 2026-06-15 | head -n 4
