# Words of a file of facts that say that a machine must not run are no fact of that: what to type is said.
cat >signs.csv <<'CSV'
kind,machine,on,name,note
sign,dryer,2026-06-14,burner roars,do not use
sign,pump-north,2026-06-14,"knocks, darf nicht laufen",
sign,tractor-big,2026-06-14,seat torn,
CSV
whichever import signs.csv --dry-run --format json --as-of 2026-06-15 | sed -n '/"stops_not_taken"/,/]/p'
whichever import signs.csv --as-of 2026-06-15
echo '--- typed'
whichever saw sprayer "boom cracked, keep it parked" --as-of 2026-06-15
