# All of the page but its style sheet.
whichever report dryer --as-of 2026-06-15 | sed '/<style>/,/<\/style>/d'
