# Nothing is taken for good beside a note that says that the machine must not run, and whatever else says it is told.
whichever saw pump-north knocking --as-of 2026-06-14 >/dev/null
whichever looked pump-north knocking --by M.T. --note "worse, crank cracked, must not run" --as-of 2026-06-15 || echo "status $?"
whichever looked pump-north knocking --by M.T. --found good --note "may be unsafe" --as-of 2026-06-15 || echo "status $?"
echo '--- as it is told to say it'
whichever looked pump-north knocking --by M.T. --found failed --note "worse, crank cracked, must not run" \
  --as-of 2026-06-15
echo '--- in a file'
cat >good.csv <<'CSV'
kind,machine,on,name,found,by,note
looked-at,pump-north,2026-06-15,knocking,good,M.T.,"must not run"
CSV
whichever import good.csv --as-of 2026-06-15 || echo "status $?"
echo '--- a service'
whichever saw tractor-big brake-pull --as-of 2026-06-14 >/dev/null
whichever done tractor-big brakes --by M.T. --note "looked at; must not run" --as-of 2026-06-15 || echo "status $?"
cat >done.csv <<'CSV'
kind,machine,on,task,by,note
service,tractor-big,2026-06-15,engine-oil,M.T.,"all well"
service,tractor-big,2026-06-15,brakes,M.T.,"must not run"
CSV
whichever import done.csv --skip-bad --as-of 2026-06-15 | head -4
echo '--- one that takes nothing off the list'
whichever done tractor-drill engine-oil --note "must not run" --as-of 2026-06-15
