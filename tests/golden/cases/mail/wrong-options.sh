whichever mail --format json || true
whichever mail --mailer "sendmail -t -i" --output m.eml || true
whichever mail --mailer "./no-such-mailer -t" --as-of 2026-06-16 || true
whichever mail --mailer "false" --as-of 2026-06-16
