-- The due list as one statement over the latest rows. Days are whole numbers since 1970, use is in hundredths; months are
-- added by a table of days (its month, and how far into it) and one of months, and kept to the month's last day.
with limbs as (
  select p.machine, p.fitted_on, m.usage - p.fitted_at as used, t.name, t.safety, t.hours, t.months, t.grace_days,
         case when t.safety then 0 when t.grace then t.grace else t.hours * 5 / 100 end as grace,
         case when t.months then min(due.first_day + d.into_month, due.last_day) end as due_by
  from point p join task t on t.id = p.task join meter m on m.machine = p.machine join day d on d.id = p.fitted_on
  join month due on due.id = d.month + t.months
), judged as (
  select l.*, case when l.hours then l.hours - l.used end as left, l.due_by - :as_of as days_left,
         case when l.safety then 0 when l.grace_days then l.grace_days else (l.due_by - l.fitted_on) * 5 / 100 end as days_of_grace
  from limbs l
)
select m.name as machine, j.name as task,
       case when j.left < -j.grace or -j.days_left > j.days_of_grace then 'overdue' when j.left <= 0 or j.days_left <= 0 then 'due' else '' end as standing,
       case when j.hours then j.used / 100.0 end as used, j.left / 100.0 as left,
       date(j.fitted_on * 86400, 'unixepoch') as fitted_on, date(j.due_by * 86400, 'unixepoch') as calendar_due_on, j.days_left as calendar_left_days
from judged j join machine m on m.id = j.machine
where :all or j.left < -j.grace or -j.days_left > j.days_of_grace
order by j.safety desc, min(coalesce(j.left / 100, 999999), coalesce(j.days_left, 999999)) limit :rows;
