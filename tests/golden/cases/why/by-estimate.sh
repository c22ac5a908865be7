whichever why telehandler-store engine-oil --as-of 2026-06-15
