unset WHICHEVER_FLEET
whichever due || echo "status $?"
whichever --fleet nowhere due || echo "status $?"
rm fleet/record.db
whichever --fleet fleet due || echo "status $?"
: >fleet/record.db
whichever --fleet fleet due || echo "status $?"
