# What an earlier stop takes is there no more for a later one; the head says what cannot be finished for it.
whichever count oil-filter-tractor 1 --on 2026-06-15 --as-of 2026-06-15 >/dev/null
whichever count engine-oil-15w40 30 --on 2026-06-15 --as-of 2026-06-15 >/dev/null
rounds="whichever rounds --from 2026-06-15 --as-of 2026-06-15"
$rounds | grep -A4 'parts are short'
$rounds | grep -A2 -E '^(Estate|Contr).*, [A-Z][a-z]+day|(\[ \]|\*) .*(oil-filter-tractor|15w40)'
$rounds --format csv | grep '^[a-z0-9-]*,' | grep -o '"\(oil\|engine\)[a-z0-9-]*: [0-9.]* L* *short.*'
$rounds --format md | grep -o 'oil-filter-tractor: [^;|]*'
$rounds --format ics | tr -d '\r' | sed ':a;N;$!ba;s/\n //g' | grep -o 'oil-filter-tractor: [^\\]*\\[^\\]*'
