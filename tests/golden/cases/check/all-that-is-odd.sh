whichever check --as-of 2026-06-15
sed -i -e 's/^  pump-north:/  pump-noord:/' -e '0,/harvest/s//harvst/' fleet/fleet.yaml
whichever check --as-of 2026-06-15 || echo "status $?"
