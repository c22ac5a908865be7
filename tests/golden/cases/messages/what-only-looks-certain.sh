cat >texts.txt <<'TEXT'
[14/06/2026, 18:05] Kari: done dryer burner-service by friday
looked telehandler-store leak: hose worn through, do not use
done telehandler-store fork
saw sprayer over-flow=11
combine brakes gone!!!
combine 2081.5 leaking oil
combine 3349 miles
combine 2099 sorry 2081
out of use combine tomorrow
14 Jux 2026, 19:40 - A.F.: hi
combine 2081.5
[12/06/2026, 07:05] Kari: saw combine leak
[12/06/2026, 09:05] Kari: looked combine leak found good
saw sprayer over-flow@middle=11
TEXT
whichever import --messages texts.txt --as-of 2026-06-15 --dry-run || echo "status $?"
