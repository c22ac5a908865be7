whichever due --format json --as-of 2026-06-15 >plain
for zone in UTC Pacific/Auckland America/Los_Angeles Asia/Kolkata; do
  for locale in C de_DE.UTF-8 tr_TR.UTF-8; do
    env -i TZ=$zone LC_ALL=$locale "$(command -v whichever)" --fleet fleet due --format json --as-of 2026-06-15 | cmp - plain
  done
done
