# Notes of a spreadsheet may tell of a fault: they are named when it is taken over, and wherever a machine is asked about.
cat >list.csv <<'CSV'
name;hours;notes
Yard tractor;1200;brakes not working
Trailer;;hose leaking
Loader;300;
Sprayer;40;steering pulls left - do not use on road
CSV
unset WHICHEVER_FLEET
whichever new farm --from list.csv --as-of 2026-06-15
whichever --fleet farm find-out --as-of 2026-06-15 | grep -B1 Notes
whichever --fleet farm find-out --format json --as-of 2026-06-15 | grep '"notes"'
whichever --fleet farm why yard-tractor --as-of 2026-06-15 | head -2
