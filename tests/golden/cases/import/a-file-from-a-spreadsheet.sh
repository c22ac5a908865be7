printf 'kind;machine;on;at\nreading;combine;13/06/2026;2.090\nreading;tractor-big;14/06/2026;2391,5\n' >facts.csv
whichever import facts.csv --dry-run --as-of 2026-06-15
whichever import facts.csv --as-of 2026-06-15
printf 'kind;machine;on;at\nreading;combine;13/06/2026;2.095\n' >facts.csv
whichever import facts.csv --as-of 2026-06-15 || echo "status $?"
whichever import facts.csv --decimal comma --as-of 2026-06-15
printf 'kind,machine,on,at,name\nreading,combine,2026-06-15,1,\nreading,combyne,2026-06-15,2100,\nsign,combine,2026-06-15,,brake-pull\n' >facts.csv
whichever import facts.csv --skip-bad --as-of 2026-06-15
cat facts.rejected.csv
