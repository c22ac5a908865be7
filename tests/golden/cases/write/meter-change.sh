whichever meter-change pump-north --last 6970 --first 0 --as-of 2026-06-15
whichever reading pump-north 12.5 --as-of 2026-06-16
whichever why pump-north engine-oil --as-of 2026-06-16
