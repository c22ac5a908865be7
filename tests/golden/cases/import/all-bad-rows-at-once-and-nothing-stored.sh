whichever export >before.csv
cat >bad.csv <<'CSV'
kind,machine,on,at,task
reading,tractor-big,2026-06-14,2291,
reading,tractor-bigg,2026-06-14,2291,
reading,tractor-big,2026-02-30,2291,
service,tractor-big,2026-06-14,,engine-oli
reading,tractor-big,2026-06-14,"2.291,5",
reading,tractor-big,2027-01-01,2500,
CSV
whichever import bad.csv --as-of 2026-06-15 || echo "status $?"
whichever export | cmp - before.csv
