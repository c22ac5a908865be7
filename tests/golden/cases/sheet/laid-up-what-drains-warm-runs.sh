# What drains hot fluid runs the machine for it, whether its cautions say `engine-running` or not.
for machine in tractor-drill sprayer; do
  whichever lay-up $machine --until 2026-10-20 --note "battery out" --as-of 2026-06-15 >/dev/null
  whichever sheet $machine --within 6w --as-of 2026-06-15 | grep -E -A 2 '^ ?[0-9]+\. |!! Laid up'
done
