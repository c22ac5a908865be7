cat >texts.txt <<'TEXT'
[15.06.2026, 07:00] M.T.: looked telehandler-store leak by M.T. found good
[15.06.2026, 07:05] A.F.: saw telehandler-store leak
[15.06.2026, 08:00] M.T.: done tractor-loader brakes by M.T.
[15.06.2026, 08:30] A.F.: saw tractor-loader brakes not done
[14.06.2026, 19:40] A.F. asks: done combine engine-oil by M.T.
[15.06.2026, 09:00] Kari: done sprayer hydraulic-oil by A.F.
TEXT
whichever import --messages texts.txt --as-of 2026-06-15 --dry-run || echo "status $?"
cat >texts.txt <<'TEXT'
[12.06.2026, 20:00] M.T.: tractor-loader 1118
[06:10] M.T.: saw telehandler-store leak
TEXT
whichever import --messages texts.txt --as-of 2026-06-15 --dry-run || echo "status $?"
