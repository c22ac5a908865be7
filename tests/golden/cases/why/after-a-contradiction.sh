cp -r fleet van
whichever reading combine 2090 --on 2026-06-14 --as-of 2026-06-15 >/dev/null
whichever --fleet van reading combine 2085 --on 2026-06-15 --as-of 2026-06-15 >/dev/null
whichever merge van/record.db --as-of 2026-06-15 >/dev/null
whichever why combine engine-oil --as-of 2026-06-15
