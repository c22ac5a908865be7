said() { whichever "$@" --as-of 2026-06-15 || echo "status $?"; }
said rounds
said rounds --from 2026-06-01
said rounds --from 2026-06-20 --days 2
said rounds --from 2026-06-15 --without contracter
said rounds --from 2026-06-15 --check fleet/fleet.yaml
