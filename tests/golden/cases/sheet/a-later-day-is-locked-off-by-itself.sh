# What is put off keeps nothing locked off from today on: automatic start goes back on behind the work of the day.
whichever put-off generator-main battery --until 2026-07-01 --note ordered --by M.T. --as-of 2026-06-15 >/dev/null
whichever sheet generator-main --within 6w --as-of 2026-06-15 |
  sed -n '/^To take/,/^To do/p;/^Automatic/,/^ 1/p;/^From /,/    Takes/p;/^Afterwards/,/^Signed/p;/^To type/,$p'
