# Whatever is told of a machine that nobody may run, its answer says so.
whichever saw tractor-loader long-pedal --as-of 2026-06-15
whichever out-of-use telehandler-store --note "boom bent" --as-of 2026-06-15 >/dev/null
whichever done telehandler-store engine-oil --at 1712 --as-of 2026-06-15 | sed -n '1,3p;/^Check/,/^  fluid/p'
whichever saw combine brake-pull --as-of 2026-06-15 >/dev/null
whichever back combine --as-of 2026-06-15
