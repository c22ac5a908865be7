# A machine that is laid up, or out of use, and whose meter ran on: asked until somebody says how it stands.
day="--as-of 2026-06-15"
whichever lay-up combine --until 2027-06-01 --on 2026-05-07 $day >/dev/null
whichever reading combine 2110 --on 2026-06-10 --sure $day | sed -n 2,4p
whichever due combine --overdue --exit-code $day || echo "status $?"
whichever due combine $day | sed -n '/^Laid up/,/^$/p'
whichever due combine --format csv $day | grep ^gap | cut -d, -f1,2
whichever due combine --format json $day | sed -n '/ran-while-not-in-use/,/meter/p'
whichever due combine --format md $day | grep 'has run'
whichever find-out combine $day
whichever sheet combine $day | head -5
whichever check $day | grep -A1 'has run'
whichever mail $day | grep -m 1 -A1 'has run'
echo '--- it was back, or it stands and somebody says so: nothing is left'
whichever back combine --on 2026-06-09 $day >/dev/null
whichever due combine --overdue --exit-code $day || echo "status $?"
whichever undo $day >/dev/null
whichever lay-up combine --until 2027-06-01 --on 2026-06-10 $day >/dev/null
whichever due combine --overdue --exit-code $day || echo "status $?"
echo '--- nobody may run it, and somebody does'
whichever reading telehandler-yard 7341.2 --on 2026-06-12 $day >/dev/null
whichever due telehandler-yard --overdue $day
echo '--- one sum; its planned day comes and answers nothing; then somebody does'
whichever lay-up dryer --on 2026-05-28 --until 2026-06-12 $day | head -2
whichever reading dryer 3850 --on 2026-06-02 $day | head -3
whichever reading dryer 3862 --on 2026-06-08 $day | head -3
whichever due dryer $day | sed -n '/^Not known/,/^$/p'
whichever find-out dryer $day | sed -n '/^Not known/,/^$/p'
whichever history dryer $day | head -2
whichever history dryer --as-of 2026-06-11 | head -2
whichever sheet dryer $day | grep -A2 'has run'
echo '--- a part of it is answered, then all'
whichever lay-up dryer --on 2026-06-05 --until 2026-06-12 $day
whichever back dryer $day
whichever due dryer $day | grep 'has run' || echo 'nothing is left'
