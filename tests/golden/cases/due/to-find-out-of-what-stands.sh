# To find out: what stands says so, what is overdue for safety is no all-clear, and the blanks say what nobody may run.
whichever lay-up generator-main --as-of 2026-06-15 >/dev/null
whichever out-of-use generator-standby --as-of 2026-06-15 >/dev/null
for machine in generator-main tractor-loader dryer; do whichever find-out $machine --as-of 2026-06-15; done
echo '--- as a table, and filled in'
whichever find-out --format csv --as-of 2026-06-15 >blanks.csv
cut -d, -f1,2,15 blanks.csv | sort -u
whichever import blanks.csv --dry-run --as-of 2026-06-15 | head -3
