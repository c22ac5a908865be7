echo 'looked telehandler-store leak by M.T. found good' >look.txt
whichever import --messages look.txt --as-of 2026-06-15
echo 'saw telehandler-store leak' | whichever import --messages - --as-of 2026-06-16 | tail -n 6
whichever import --messages look.txt --as-of 2026-06-17 || echo "status $?"
echo 'looked telehandler-store leak by M.T. found good today' | whichever import --messages - --as-of 2026-06-17 ||
  echo "status $?"
