# The facts of the sample are entered anew for each run: their ids and the time of it are not to be compared. Lines are
# put together again, or an id might stand over a fold.
whichever rounds --from 2026-06-15 --as-of 2026-06-15 --format ics | tr -d '\r' | sed -z 's/\n //g' | sed -E 's/^(UID|DTSTAMP|LAST-MODIFIED):.*/\1:.../'
