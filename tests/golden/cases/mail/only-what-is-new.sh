cat > mailer <<'END'
#!/bin/sh
cat > message
END
chmod +x mailer
whichever mail --changed --mailer ./mailer --as-of 2026-06-16
rm message
whichever mail --changed --mailer ./mailer --as-of 2026-06-16
ls message 2>/dev/null || echo "nothing new: no message"
whichever saw combine strange knocking noise --on 2026-06-16 --as-of 2026-06-17 >/dev/null
whichever mail --changed --mailer ./mailer --as-of 2026-06-17
python3 -m quopri -d < message | tr -d '\r' | sed 's/[0-9a-f]\{16\}/NAME/' | sed -n '1,/^Content-Type: text.html/p'
cut -f 1,2,4- fleet/.mailed | sed 's/checksum.*/checksum/'
