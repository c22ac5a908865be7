# What an earlier visit takes is there no more for a later one.
whichever count oil-filter-tractor 1 --on 2026-06-15 --as-of 2026-06-15 >/dev/null
visits="whichever visits --within 4w --as-of 2026-06-15"
$visits | grep -A4 'parts are short'
$visits | grep -A2 -E '^[A-Z][a-z]+day 2026-06-1[56]|(\[ \]|\*) .*oil-filter-tractor'
$visits --format csv | grep -o '^short.*\|^task.*oil-filter-tractor: .*' | cut -d, -f1,2,6,7,69-
