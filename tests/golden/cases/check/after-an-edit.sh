echo '# an edit' >> fleet/fleet.yaml
whichever check --as-of 2026-06-15 | tail -n 2
whichever reading pump-north 6980 --as-of 2026-06-15 --dry-run | head -n 1
whichever check --as-of 2026-06-15 | tail -n 2
whichever saw pump-north hum --as-of 2026-06-15 | head -n 1
whichever check --as-of 2026-06-15 | tail -n 2
