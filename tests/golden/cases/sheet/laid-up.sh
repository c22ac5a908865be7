# Its work is none of today, and the calendar says why.
whichever sheet pump-south --as-of 2026-06-15 | grep -v "^  [1-8]\. "
whichever due pump-south --format ics --as-of 2026-06-15 | tr -d '\r' | grep "^SUMMARY"
