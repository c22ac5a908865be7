# A service that found it worn and put in nothing new renewed nothing: what was measured before is to be measured again.
whichever saw telehandler-store heel-wear=12 --position left --as-of 2026-06-15 >/dev/null
whichever done telehandler-store fork@left --found worn --at 1710 --by M.T. --as-of 2026-06-15
