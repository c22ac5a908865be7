whichever sheet --readings --within 3m --as-of 2026-06-15 || echo "status $?"
