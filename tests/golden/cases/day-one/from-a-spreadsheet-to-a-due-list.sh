# A new owner: an empty folder, a register out of a spreadsheet, a walk round with a list, a first due list.
whichever new farm
cat >farm/register.csv <<'CSV'
machine;name;schedule;site;bought;bought-at;per-year
tele;Telehandler;example;yard;13.02.2026;4.812,5;600
digger;Digger;example;yard;2026-03;1907;
trailer-pump;Trailer pump;example;yard;;;150
CSV
sed -i '/^machines:/,$d' farm/fleet.yaml
echo '--- the first question'
whichever --fleet farm due --as-of 2026-04-01
echo '--- what to ask'
whichever --fleet farm find-out --as-of 2026-04-01
whichever --fleet farm find-out --format csv --as-of 2026-04-01 >blanks.csv
echo '--- filled in: a year on two filters, the meters read, the rest left blank'
sed -i -e 's/^service,tele,,engine,,engine-oil,/service,tele,2025-06,engine,4500,engine-oil,/' \
  -e 's/^service,digger,,engine,,air-filter,/service,digger,2022,engine,,air-filter,/' \
  -e 's/^service,trailer-pump,,engine,,engine-oil,/service,trailer-pump,2025-11-02,engine,310,engine-oil,/' blanks.csv
whichever --fleet farm import blanks.csv --as-of 2026-04-01
whichever --fleet farm reading tele 4890 --as-of 2026-04-01 >/dev/null
whichever --fleet farm reading digger 1931.5 --as-of 2026-04-01 >/dev/null
whichever --fleet farm reading trailer-pump 402 --as-of 2026-04-01 >/dev/null
echo '--- the first due list'
whichever --fleet farm due --as-of 2026-04-01
whichever --fleet farm check --as-of 2026-04-01
