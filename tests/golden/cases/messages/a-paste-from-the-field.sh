printf 'Combine 2081,5 yesterday\r\nDone combine engine oil 2081.5 by M.T. 👍\r\n\r\nsaw sprayer over-flow 11 %% middle\r\nsaw tractor-big strange knocking.\r\n' >texts.txt
whichever import --messages texts.txt --as-of 2026-06-15 || echo "status $?"
printf 'done lodaer oil\r\ndone tractor-loader brakes by M.T.\r\nthanks!\r\n' >texts.txt
whichever import --messages texts.txt --as-of 2026-06-15 || echo "status $?"
