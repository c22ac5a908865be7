sed -i 's/schedule: field-tractor/schedule: feild-tractor/; s/from: 08-01/from: 31-08/' fleet/fleet.yaml
sed -i '0,/hours: 250/s//hours: 25O/' fleet/schedules/field-tractor.yaml
whichever due --as-of 2026-06-15
