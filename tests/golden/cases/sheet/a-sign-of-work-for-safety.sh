whichever saw combine brake-pull --on 2026-06-14 --as-of 2026-06-15 >/dev/null
whichever saw generator-main slow-crank --on 2026-06-14 --as-of 2026-06-15 >/dev/null
whichever sheet combine generator-main --as-of 2026-06-15 | grep -v '^ *\[ \]' | sed '/^Before you touch/,/^To take/d'
whichever due combine --as-of 2026-06-15 | head -9
