# Whoever reads a meter or looks for papers at a machine is told what was seen of it.
whichever saw dryer fire --as-of 2026-06-15 >/dev/null
whichever saw tractor-yard "steering loose" --as-of 2026-06-15 >/dev/null
whichever sheet --readings dryer tractor-yard --as-of 2026-06-15
whichever sheet --readings --format html dryer --as-of 2026-06-15 | grep -o 'Look before it runs[^<]*'
whichever sheet --readings --format json dryer --as-of 2026-06-15 | grep '"sign"'
whichever find-out tractor-yard --as-of 2026-06-15 | sed -n '/^tractor-yard/,/brakes/p'
whichever find-out tractor-yard --format json --as-of 2026-06-15 | grep '"sign"'
