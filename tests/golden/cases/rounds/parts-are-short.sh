# What an earlier stop takes is there no more for a later one; the head says what cannot be finished for it.
whichever count oil-filter-tractor 1 --on 2026-06-15 --as-of 2026-06-15 >/dev/null
whichever count engine-oil-15w40 30 --on 2026-06-15 --as-of 2026-06-15 >/dev/null
rounds="whichever rounds --from 2026-06-15 --as-of 2026-06-15"
$rounds | grep -A4 'short:'
$rounds | grep -E -A3 '^(North|South|Contr).*, [A-Z][a-z]+day|\[ \]|   \* (oil|engine|air|start)' | grep -v 'Leave\|stops\|^--'
$rounds --format csv | grep '^stop\|^short' | grep -o '^[^,]*,[^,]*,\|,"*[a-z0-9-]*: [0-9.]* L* *\(not in stock\|short\).*'
$rounds --format md | grep -o 'oil-filter-tractor: [^;|]*'
$rounds --format ics | tr -d '\r' | sed ':a;N;$!ba;s/\n //g' | grep -o 'oil-filter-tractor: [^\\]*\\[^\\]*'
