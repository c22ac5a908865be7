# Which meter a value is of, what it is due by again, and how it is typed in; the same words when it is.
whichever sheet combine --within 8w --as-of 2026-06-15 | sed -n '/^To do/,$p'
whichever done combine separator-belts --at 1600 --meter separator --by Ann --dry-run --as-of 2026-06-15 | grep "next due"
whichever done tractor-big air-safety --by Ann --dry-run --as-of 2026-06-15 | grep "next due"
