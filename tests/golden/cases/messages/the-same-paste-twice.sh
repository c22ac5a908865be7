printf 'combine 2081.5\nsaw combine leak\nlooked combine leak found good\n' >texts.txt
whichever import --messages texts.txt --as-of 2026-06-15 >first.txt
whichever export >before.csv
whichever import --messages - --as-of 2026-06-15 <texts.txt
whichever export | cmp - before.csv
echo "seen again after a look that the paste does not tell of:"
whichever looked combine leak --note "dry, all day" --as-of 2026-06-15 >/dev/null
echo 'saw combine leak' | whichever import --messages - --as-of 2026-06-15
