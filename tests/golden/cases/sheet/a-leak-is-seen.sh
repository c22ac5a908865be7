# No task lists it, so it may be about any of them: all their cautions, in the sheet, in the event and in the mail.
whichever saw sprayer leak --new --as-of 2026-06-14 >/dev/null
whichever sheet sprayer --as-of 2026-06-15 | sed -n '/^What to mind/,$p'
whichever due --overdue sprayer --format ics --as-of 2026-06-15 | tr -d '\r' | sed -e ':a' -e 'N' -e '$!ba' -e 's/\n //g' |
  grep "^DESCRIPTION.*leak"
whichever mail --as-of 2026-06-15 2>/dev/null | sed -n '/^Seen, not looked/,/^$/p' | head -20
