sed -i 's/^stale-after: .*/stale-after: soon/' fleet/fleet.yaml
whichever mail --as-of 2026-06-16 > message || status=$?
python3 -m quopri -d < message | tr -d '\r' | sed 's/[0-9a-f]\{16\}/NAME/; /<style>/,/<\/style>/d'
exit $status
