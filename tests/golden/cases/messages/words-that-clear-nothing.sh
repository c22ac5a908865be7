cat >texts.txt <<'TEXT'
done telehandler-store hoses checked
looked telehandler-store leak by M.T. found good: not fixed
looked telehandler-store leak by M.T. found good clamp tightened
done tractor-loader brakes by summer
done combine engine-oil by M.T. hopefully
done combine engine-oil by M.T. note half of it
combine 2081.5 by M.T.
saw combine brake-pull, long-pedal yesterday by M.T.
saw sprayer over-flow 11% middle
done tractor-big tyre left front
combine engine-oil done
TEXT
whichever import --messages texts.txt --as-of 2026-06-15 --dry-run || echo "status $?"
