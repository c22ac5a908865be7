whichever meter-change pump-north --last 99999 --first 0 --as-of 2026-06-15 || echo "status $?"
