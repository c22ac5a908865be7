whichever export >book.csv
whichever export --format jsonl >book.jsonl
mkdir other && cp -r fleet/fleet.yaml fleet/schedules fleet/register.csv other/
whichever new other >/dev/null
whichever --fleet other import book.csv --as-of 2026-06-15 | head -n 2
whichever --fleet other export | cmp - book.csv
whichever --fleet other import book.jsonl --as-of 2026-06-15 | head -n 2
whichever --fleet other export | cmp - book.csv
