# The day on which a machine is to be back names what is to be seen to before, as `back` and the overdue list do.
whichever lay-up tractor-drill --on 2026-06-12 --until 2026-08-01 --as-of 2026-06-15 >/dev/null
whichever due --format ics --as-of 2026-06-15 | tr -d '\r' | sed -e ':a;N;$!ba;s/\n //g' | sed -n -e '/^SUMMARY.*to be back/p' \
  -e '/^DESCRIPTION.*laid up since.*See to these/{s/Mind:.*//;s/\\n/\n  /g;p}'
