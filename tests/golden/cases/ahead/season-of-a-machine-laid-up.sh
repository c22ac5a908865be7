# Of a machine that is laid up until the season: what falls on a day on which it stands is done by the last one before it
# is back; what comes later, and what is to be had ready, keeps its own day.
whichever lay-up tractor-drill --on 2026-06-12 --until 2026-07-20 --as-of 2026-06-15 >/dev/null
whichever season harvest tractor-drill --as-of 2026-06-15 | sed -n '/^Do before/,/^S: safety/p'
