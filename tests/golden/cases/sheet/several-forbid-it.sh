# Whoever mends one thing does not run the machine with the others, and what stands behind the repairs waits for all.
whichever done telehandler-store brakes --found failed --at 1710 --by M.T. --as-of 2026-06-15 >/dev/null
whichever saw telehandler-store heel-wear=12 --position left --as-of 2026-06-15 >/dev/null
whichever sheet telehandler-store --as-of 2026-06-15 | grep -E -A 2 '^ ?[0-9]+\. |^!! |^    !! [NOR]|Everybody|^Renewed'
whichever saw tractor-big tread-depth=6 --position front-right --as-of 2026-06-15 >/dev/null
whichever sheet tractor-big --within 6w --as-of 2026-06-15 | grep -E -A 2 '^ ?[0-9]+\. |^!! |^    !! [NOR]'
