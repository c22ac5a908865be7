for m in combine pump-north sprayer generator-standby telehandler-yard; do whichever due --machine $m --format json --as-of 2026-06-15; done
