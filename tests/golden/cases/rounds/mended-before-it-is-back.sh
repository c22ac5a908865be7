# Laid up with a sign that forbids to run it, and back in the week: its stop mends it, so it waits for no call.
whichever saw tractor-loader brake-pull --on 2026-06-14 --as-of 2026-06-14 >/dev/null
whichever lay-up tractor-loader --until 2026-06-18 --note "bucket is off" --on 2026-06-14 --as-of 2026-06-14 >/dev/null
whichever rounds --from 2026-06-15 --as-of 2026-06-15 >week.txt
grep -A9 -E '^[0-9]\. .*tractor-loader' week.txt
echo "waits to be mended: $(grep -c -i 'waits to be mended.*brake' week.txt)"
whichever visits --as-of 2026-06-15 | grep -i -A2 'waits to be mended.*brake' || echo "nor in the visits"
