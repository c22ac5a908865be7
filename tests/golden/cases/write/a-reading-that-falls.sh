whichever reading tractor-drill 4700 --as-of 2026-06-15
