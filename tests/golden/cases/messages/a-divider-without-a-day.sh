cat >texts.txt <<'TEXT'
[10.06.2026, 07:00] M.T.: tractor-loader 1118
--- Sunday ---
combine 2081.5
--- 14 June 2026 ---
combine 2081.5
TEXT
whichever import --messages texts.txt --as-of 2026-06-15 --dry-run || echo "status $?"
