# The facts of the sample are entered anew for each run: their ids and the time of it are not to be compared.
whichever due telehandler-yard pump-south generator-standby --format ics --as-of 2026-06-15 | tr -d '\r' | sed -E 's/^(UID|DTSTAMP|LAST-MODIFIED):.*/\1:.../'
