whichever out-of-use combine --note "drum cracked" --as-of 2026-06-15 >/dev/null
whichever season harvest combine --as-of 2026-06-15
