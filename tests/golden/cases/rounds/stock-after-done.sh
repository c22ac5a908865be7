# What is left for a stop is without what the kept plan's rounds took before, and the same once that is written down.
whichever count engine-oil-15w40 60 --on 2026-06-14 --as-of 2026-06-14 >/dev/null
whichever rounds --from 2026-06-15 --as-of 2026-06-15 --format json --output plan.json
told() {
  whichever rounds --from 2026-06-17 --as-of 2026-06-17 --keep plan.json | grep -A2 -E '(\[ \]|\*) .*15w40'
  whichever rounds --from 2026-06-17 --as-of 2026-06-17 --keep plan.json --format json |
    python3 -c 'import json,sys; print("taken before:", json.load(sys.stdin)["taken_before"]["fluids"].get("engine-oil-15w40"))'
}
told
whichever done tractor-drill engine-oil --on 2026-06-15 --as-of 2026-06-17 >/dev/null
told
