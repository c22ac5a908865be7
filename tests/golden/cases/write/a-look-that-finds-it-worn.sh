whichever looked telehandler-store leak --by M.T. --note "hose tightened" --as-of 2026-06-15 || echo "status $?"
whichever looked telehandler-store leak --by M.T. --found good --note "hose tightened" --as-of 2026-06-15 | grep -A3 "^On the due"
whichever looked telehandler-store leak --by A.F. --found failed --note "hose split" --as-of 2026-06-16
whichever due telehandler-store --overdue --as-of 2026-06-17 | grep -A2 hoses
whichever why telehandler-store hoses --as-of 2026-06-17 | sed -n "/^  facts/,/^  ahead/p"
whichever looked pump-south gland-drip --note dry --as-of 2026-06-17 | grep -A1 "^It answers"
