# Where nothing is left to fill in, what was seen, that nobody may run it and the owner's notes are told all the same.
day="--as-of 2026-06-15"
whichever saw dryer "odd smell" $day >/dev/null
whichever find-out dryer pump-north $day
whichever find-out telehandler-yard $day
whichever find-out sprayer $day
echo '--- of all machines, and cut short'
whichever find-out $day | sed -n '/^Sprayer/,/^What to mind/p;/^dryer/,/^What to mind/p' | sed '$d'
whichever find-out --first 1 $day | sed -n '/^pump-trailer/,/^And/p;/^And/p' 
whichever find-out dryer pump-north --format json $day | grep -e '"beside"' -e '"machine"' -e '"sign"' -e '"task"' -e '"notes"'
