cat >texts.txt <<'TEXT'
[14.06.2026, 18:00] A.F.: done tractor-loader brakes
[14.06.2026, 18:01] M.T.: combine 2081
[14.06.2026, 18:02] M.T.: tractor-loader not to be run, brakes are not done
[14.06.2026, 18:10] A.F.: done telehandler-store hoses at 1710
[14.06.2026, 18:12] M.T.: hose on the store telehandler still leaks, do not run it
[14.06.2026, 18:20] Kari: done generator-main engine-oil at 2145
[14.06.2026, 18:21] Per: ok, thanks
[14.06.2026, 18:22] Per: Planned for tomorrow:
combine 2090
TEXT
whichever import --messages texts.txt --as-of 2026-06-15 --dry-run || echo "status $?"
cat >texts.txt <<'TEXT'
saw tractor-big tread-depth=14 front-right
done tractor-big tyre front-right
out-of-use sprayer if it still leaks
TEXT
whichever import --messages texts.txt --as-of 2026-06-15 --dry-run || echo "status $?"
