# Not a dry run: what is certain is stored, though what a line would end has to be asked of the machines of its kind.
cat >texts.txt <<'TEXT'
out-of-use dryer fire
pump-trailer 1550
the trailer is fine
TEXT
whichever import --messages texts.txt --on 2026-06-14 --as-of 2026-06-15 >told.txt || echo "status $?"
grep -v "^Take it" told.txt
whichever due dryer --overdue --as-of 2026-06-15 | head -n 4
