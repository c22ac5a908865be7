# Nobody said until when: its work is due all the same before it goes back to work.
whichever lay-up tractor-loader --on 2026-06-14 --note "bucket is off" --as-of 2026-06-14 >/dev/null
whichever rounds --from 2026-06-15 --as-of 2026-06-15 | sed -n '/^Not planned/,/^$/p'
