# Of every command that people read, in a pipe: lines that are wider are printed, and what says nothing is named, for it
# would have none. The remarks of `check` are a line each, with their place in front, as tools read them.
export LC_ALL=C.UTF-8
while read -r line; do
  said=$(if [ "$line" = help ]; then whichever help; else whichever $line --as-of 2026-06-15; fi) || echo "fails: $line"
  [ -n "$said" ] || echo "says nothing: $line"
  if grep -E '^.{81,}$' <<<"$said"; then echo "of: $line"; fi
done <<'COMMANDS'
due
due --all
due --overdue
due combine
why combine
why tractor-big engine-oil
find-out
find-out tractor-yard
forecast
forecast combine
forecast --replay
season harvest
season pumping
workload
workload --by week --within 8w
parts
parts --before harvest
sheet
sheet dryer combine --within 12m
sheet --readings
history combine
check
reading combine 2162.5 --dry-run
done combine engine-oil --at 2162.5 --dry-run
saw combine brake-pull --dry-run
put-off combine engine-oil --until 2026-09-20 --dry-run
help
COMMANDS
