whichever mail --format json || echo "status $?"
whichever mail --mailer "sendmail -t -i" --output m.eml || echo "status $?"
whichever mail --mailer "./no-such-mailer -t" --as-of 2026-06-16 || echo "status $?"
whichever mail --mailer "false" --as-of 2026-06-16
