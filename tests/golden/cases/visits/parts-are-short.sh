# What an earlier visit takes is there no more for a later one.
whichever count oil-filter-tractor 1 --on 2026-06-15 --as-of 2026-06-15 >/dev/null
visits="whichever visits --within 4w --as-of 2026-06-15"
$visits | grep -A4 'short:'
$visits | grep -E -A2 '^[A-Z][a-z]+day|oil-filter-tractor'
$visits --format csv | grep '^short\|oil-filter-tractor: '
