cp -r fleet van
whichever reading combine 2090 --on 2026-06-14 --as-of 2026-06-15 >/dev/null
whichever done pump-north guards --on 2026-06-14 --by Ann --as-of 2026-06-15 >/dev/null
whichever --fleet van done pump-north guards --on 2026-06-14 --by Ben --as-of 2026-06-15 >/dev/null
whichever --fleet van reading combine 2085 --on 2026-06-15 --as-of 2026-06-15 >/dev/null
whichever merge van/record.db --as-of 2026-06-15
whichever merge van/record.db --as-of 2026-06-15
whichever --fleet van merge fleet/record.db --as-of 2026-06-15 >/dev/null
whichever export >a && whichever --fleet van export | cmp - a
whichever backup copy.db
whichever backup copy.db || echo "status $?"
stat -c '%a' copy.db
whichever merge fleet/fleet.yaml || echo "status $?"
