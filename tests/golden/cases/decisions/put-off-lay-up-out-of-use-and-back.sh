export WHICHEVER_USER=tester
whichever put-off tractor-loader engine-oil --until +20h --until 2026-07-01 --note "after hay" --as-of 2026-06-15
whichever put-off tractor-loader brakes --until 2026-07-01 --as-of 2026-06-15 || echo "status $?"
whichever put-off generator-main battery --until 2026-07-01 --as-of 2026-06-15
whichever lay-up generator-main --until 2026-10-01 --note "no pumping in summer" --as-of 2026-06-15
whichever due --overdue --machine generator-main --as-of 2026-06-15
whichever back generator-main --as-of 2026-06-15
whichever out-of-use combine --note "guard off the left chain" --as-of 2026-06-15
whichever due --machine combine --as-of 2026-06-15
whichever back telehandler-yard --note "new forks fitted" --as-of 2026-06-15
whichever count oil-filter-tractor 3 --as-of 2026-06-15
whichever count oil-filter-tracter 3 --as-of 2026-06-15 || echo "status $?"
