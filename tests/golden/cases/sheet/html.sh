whichever sheet telehandler-store --format html --as-of 2026-06-15
