echo 'saw telehandler-yard heel-wear=1.15 left' | whichever import --messages - --as-of 2026-06-15 || echo "status $?"
whichever saw telehandler-yard heel-wear=1.15 --position left --as-of 2026-06-15
whichever check --as-of 2026-06-15 2>&1 | grep -A1 heel-wear
printf 'saw tractor-big tread-depth=12 front-right\ndone tractor-big tyre front-right by M.T.\n' |
  whichever import --messages - --as-of 2026-06-15 --dry-run
