cat >texts.txt <<'TEXT'
[10.06.2026, 07:00] M.T.: done tractor-loader brakes by M.T.
[10.06.2026, 07:01] A.F.: saw combine the brake-pull
[10.06.2026, 07:02] M.T.: sorry wrong machine
[12.06.2026, 07:00] M.T.: looked telehandler-store leak by M.T. found good
no sorry it still drips
[12.06.2026, 08:00] A.F.: looked telehandler-store leak by A.F. found good 2026-06-05
[15.06.2026, 08:00] A.F.: saw combine brake pull badly (M.T.)
[15.06.2026, 08:30] Kari: done telehandler-store hoses found failed by M.T.
TEXT
whichever import --messages texts.txt --as-of 2026-06-15 --dry-run || echo "status $?"
