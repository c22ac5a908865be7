# A page is replaced whole, and is a page of a machine also where nothing is due.
whichever sheet dryer --format html --output dryer.html --as-of 2026-03-15
whichever sheet dryer --format html --as-of 2026-03-15 | cmp - dryer.html && echo the same
whichever sheet dryer --exit-code --as-of 2026-03-15
