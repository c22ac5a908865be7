# On a machine that the visit is for it is what to look at; on another it is told at the first visit to the site; where
# nobody goes it stands behind.
whichever done pump-north guards --found failed --by M.T. --on 2026-06-15 --as-of 2026-06-15 >/dev/null
whichever visits --within 1d --as-of 2026-06-15 | grep -A3 'waits to\|look before\|^Waits\|^Seen'
whichever visits --site wullamere --within 1d --as-of 2026-06-15 | grep -A3 'waits to\|look before\|^Waits\|^Seen'
whichever visits --site steading --within 1d --as-of 2026-06-15 | grep -A3 'waits to\|look before\|^Waits\|^Seen'
