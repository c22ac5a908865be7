# With its steps, time and tools, and a line that writes it down as mended.
whichever done combine brakes --found failed --by "M. Thorne" --at 2080 --on 2026-06-15 --as-of 2026-06-15 >/dev/null
whichever sheet combine --as-of 2026-06-15
