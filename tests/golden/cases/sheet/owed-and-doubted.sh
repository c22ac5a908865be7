# A check that a service asked for is work by itself; a doubt stands at the meter.
whichever done sprayer wheel-bearings --at 13460 --meter road --by Ann --on 2026-06-12 --as-of 2026-06-12 >/dev/null
whichever sheet --site steading --as-of 2026-06-12 | sed -n '/(sprayer)/,/^=====/p'
whichever sheet tractor-drill --as-of 2026-06-15 | sed -n '/^Meters/,/^Before/p'
whichever sheet --readings tractor-drill --as-of 2026-06-15
