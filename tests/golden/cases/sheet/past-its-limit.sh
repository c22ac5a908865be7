# Said alike by the sheet, the due list and the season, and it does not end when the machine is back.
whichever saw tractor-big tread-depth=6 --position front-right --as-of 2026-06-15
whichever sheet tractor-big --as-of 2026-06-15 | sed -n 1,8p
whichever due tractor-big --as-of 2026-06-15
whichever season harvest tractor-big --format csv --as-of 2026-06-15 | grep -E "^kind|^machine|front-right"
whichever done telehandler-yard fork --position left --by "M. Thorne" --on 2026-06-15 --as-of 2026-06-15 >/dev/null
whichever saw telehandler-yard heel-wear=11.5 --position left --as-of 2026-06-15 >/dev/null
whichever back telehandler-yard --note "safe, says M. Thorne" --as-of 2026-06-15 >/dev/null
whichever sheet telehandler-yard --as-of 2026-06-15 | sed -n 1,8p
whichever due telehandler-yard --format csv --as-of 2026-06-15 | grep -E "^kind|fork"
