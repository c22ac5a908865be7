whichever out-of-use generator-main --note "winding burnt" --on 2026-06-14 --as-of 2026-06-15 >/dev/null
whichever sheet generator-main --as-of 2026-06-15
