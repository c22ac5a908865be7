whichever new farm --as-of 2026-06-15
cat farm/fleet.yaml farm/schedules/*.yaml
whichever --fleet farm due --as-of 2026-06-15 || echo "status $?"
stat -c %a farm/record.db
whichever new farm --as-of 2026-06-15 || echo "status $?"
