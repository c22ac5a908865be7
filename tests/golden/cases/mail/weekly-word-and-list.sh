whichever mail --as-of 2026-06-15 | tr -d '\r' | sed -n '/^Subject/,/put off/p;/^Next due/,/^Before you touch a machine$/p'
