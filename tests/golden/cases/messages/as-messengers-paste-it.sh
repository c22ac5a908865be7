cat >texts.txt <<'TEXT'
[05/06/2026, 18:05] Kari: combine 2080
and so home
[06/06/2026, 07:10] Kari: combine 2081 h
07/06/2026, 07:12 - Ola N.: done combine engine-oil at 2081
saw combine leak
out of use: combine
TEXT
whichever import --messages texts.txt --as-of 2026-06-15 --dry-run || echo "status $?"
whichever import --messages texts.txt --as-of 2026-06-15 --on 2026-06-07 --dry-run | tail -n 24
