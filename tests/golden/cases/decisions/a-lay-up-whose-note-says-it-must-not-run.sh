# A lay-up ends by itself, so it keeps nobody from running the machine for good; nor does a delay.
whichever lay-up sprayer --until 2026-07-10 --note "steering gone, must not run" --as-of 2026-06-15
echo '--- without an end, and as data'
whichever lay-up tractor-drill --note "frame cracked, unsafe" --as-of 2026-06-15 --format json |
  sed -n '/"stops_not_taken"/,/]/p'
echo '--- back'
whichever back sprayer --note "do not use" --as-of 2026-06-15 || echo "status $?"
whichever back sprayer --note "was unsafe, wheel changed" --as-of 2026-06-15
echo '--- put off'
whichever put-off tractor-drill engine-oil --until 2026-07-10 --note "do not start" --as-of 2026-06-15
echo '--- out of use says it already'
whichever out-of-use tractor-drill --note "do not start" --as-of 2026-06-15
