whichever import facts.csv --by M.T. || echo "status $?"
whichever import --messages facts.csv --skip-bad || echo "status $?"
