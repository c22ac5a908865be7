whichever due generator-standby telehandler-yard --within 1m --format csv --as-of 2026-06-15
