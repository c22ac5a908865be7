id=$(whichever history tractor-drill --format csv --as-of 2026-06-15 | grep 4884.3 | grep -oE '[0-9a-z]{26}-[0-9]+' | head -n 1)
whichever strike "$id" --note "an 8 was read for a 0" --as-of 2026-06-15
whichever reading tractor-drill 4804.3 --on 2026-06-05 --as-of 2026-06-15
