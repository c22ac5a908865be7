whichever visits --first 1 --as-of 2026-06-15 --exit-code --without contractor | sed '/^What to mind/,/^Afterwards/d'
whichever visits --first 1 --as-of 2026-06-15 --format csv | cut -c 1-60
