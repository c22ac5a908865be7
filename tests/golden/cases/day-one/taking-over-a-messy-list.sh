# A list of 25 machines as a spreadsheet saved it: semicolons, decimal commas, days with the day first, Windows-1252,
# units in fields, a title, columns that nobody needs, a machine twice (with a blank at its end) and a total.
list=fleet/before/machines.csv
day="--as-of 2026-06-15"
unset WHICHEVER_FLEET
echo '--- asked back'
whichever new farm --from $list $day || echo "status $?"
test ! -e farm
echo '--- taken over'
whichever new farm --from $list --skip-bad $day
cat farm/fleet.yaml farm/register.csv
export WHICHEVER_FLEET=farm
echo '--- what to ask'
whichever find-out schlepper-gross $day
whichever find-out --format csv --output blanks.csv $day
echo '--- filled in, as papers and filters tell'
filled() { sed -i "s/^service,$1,,\(engine\),,$2,/service,$1,$3,\1,$4,$2,/" blanks.csv; }
filled schlepper-gross engine-oil 2026-03-12 8290
filled schlepper-gross air-filter 2025 ''
filled schlepper-gross brakes 2025-11 7980
filled schlepper-klein engine-oil 2024-05 4900
filled schlepper-klein brakes 2025-08-20 ''
filled schlepper-saeen engine-oil 2026-04-01 2290
filled schlepper-alt engine-oil 2021 ''
filled teleskoplader-hof engine-oil 2026-04-20 6100
filled teleskoplader-hof air-filter 2026-04-20 6100
filled teleskoplader-lager engine-oil 2025-10 1500
filled radlader engine-oil 2025-06 2870
filled feldspritze engine-oil 2026-03-02 1060
filled pumpe-nord engine-oil 2026-01-10 12180
filled pumpe-sued engine-oil 2025-12 9500
filled stapler engine-oil 2025-09-14 7100
filled futtermischer engine-oil 2026-02-10 5300
filled minibagger engine-oil 2023 ''
whichever import blanks.csv --history $day
echo '--- the first due list'
whichever due $day
whichever due --all --format csv $day >due.csv
awk -F, '$1 == "point" {points++; if ($5 ~ /check-leaks/) checks++} END {print points " points, checks asked for: " checks + 0}' due.csv
whichever why schlepper-klein engine-oil $day
whichever check $day
