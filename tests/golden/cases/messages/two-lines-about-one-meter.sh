printf 'combine 2081.5\ncombine 2081\ncombine 2079\ncombine 20830\n' | whichever import --messages - --as-of 2026-06-15 || echo "status $?"
whichever undo --as-of 2026-06-15 2>/dev/null || echo "one file of several facts: to be named"
