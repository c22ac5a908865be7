# The list of the season orders no packing, for its pump does not work in harvest: here it has a heading of its own.
whichever count gland-packing 0 --on 2026-06-15 --as-of 2026-06-15 >/dev/null
whichever parts --before harvest --as-of 2026-06-15 | grep -A4 'Short'
whichever parts --before harvest --as-of 2026-06-15 --format md | grep 'gland-packing'
season=$(whichever season harvest --as-of 2026-06-15) && ! echo "$season" | grep 'gland-packing' && echo 'the season orders none'
whichever report --as-of 2026-06-15 --format html | grep -o '[0-9]* to order, [^<]*other work[^<]*'
