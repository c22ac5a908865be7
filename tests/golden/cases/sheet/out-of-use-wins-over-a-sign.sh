# No repair allows to run it, and the checks wait until somebody says that it is back.
whichever out-of-use telehandler-store --note "boom bent" --on 2026-06-14 --as-of 2026-06-15 >/dev/null
for machine in telehandler-store telehandler-yard; do
  whichever sheet $machine --as-of 2026-06-15 | grep -A 2 -E '^ ?[0-9]+\. |· 2026|!! |After it is back'
done
