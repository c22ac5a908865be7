# What runs a machine that is laid up comes after what the lay-up took off is put back.
whichever lay-up generator-main --note "oil out, battery off" --on 2026-06-14 --as-of 2026-06-15 >/dev/null
whichever lay-up telehandler-store --note "battery off" --on 2026-06-14 --as-of 2026-06-15 >/dev/null
for machine in pump-south generator-main telehandler-store; do
  whichever sheet $machine --as-of 2026-06-15 | grep -A 2 -E '^ ?[0-9]+\. |· 2026|!! |After it is back'
done
