whichever due --overdue --format ics --as-of 2026-06-15 | tr -d '\r' | grep -E "^(DTSTART|SUMMARY|CATEGORIES)"
whichever due --overdue pump-north --format ics --as-of 2026-06-15 | grep -c BEGIN:VEVENT
