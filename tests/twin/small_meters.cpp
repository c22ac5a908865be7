// Small worlds of what a meter shows.
#include <array>

#include "limbs.h"
#include "small_worlds.h"

namespace twin {

// What a meter shows: changes, roll-overs, values that are missing, partial dates. Ten hours a day.
World meters(Dial& d) {
  const Day start = day_of(2023, 5, 1);
  const int kind = d.take(3);
  const Amount at = 850 * hundred;
  World w = small_world(kind, start, at);
  w.machines.front().meters = {Meter{"engine", "h", std::nullopt}, Meter{"road", "km", std::nullopt}};
  const int event = d.take(4);  // none, a new meter, a used meter, a roll-over on day 15
  if (event == 3 && kind != 2) w.machines.front().meters.front().rolls_over_at = 1000 * hundred;
  const Amount interval = d.take(2) == 0 ? 50 * hundred : 200 * hundred;
  Task t;
  t.name = "oil";
  t.every = {hours(interval)};
  if (d.take(2) == 1) t.every.push_back(usage("road", 300 * hundred));
  w.schedules.front().tasks = {t};
  w.grace = percent(10);

  const auto true_usage = [&](int day) { return at + 10 * hundred * day; };
  std::vector<Planned> planned;
  const int mask = d.take(16);
  constexpr std::array<int, 4> read_on{0, 10, 20, 45};
  for (std::size_t i = 0; i < read_on.size(); ++i) {
    if ((mask >> i & 1) == 0) continue;
    Planned p = plan(FactKind::reading, "unit", start + read_on[i]);
    p.valued = true;
    p.usage = true_usage(read_on[i]);
    planned.push_back(p);
    Planned road = plan(FactKind::reading, "unit", start + read_on[i]);
    road.fact.meter = "road";
    road.valued = true;
    road.usage = 25 * hundred * read_on[i];
    planned.push_back(road);
  }
  if (event == 1 || event == 2) {
    Planned p = plan(FactKind::meter_change, "unit", start + 20);
    p.valued = true;
    p.usage = true_usage(20);
    p.new_first = event == 1 ? 0 : 120 * hundred;
    planned.push_back(p);
  }
  const int as_of_kind = d.take(4);
  constexpr std::array<int, 4> as_of{12, 20, 41, 46};
  const int today = as_of[static_cast<std::size_t>(as_of_kind)];
  w.as_of = start + today;

  const int form = d.take(4);  // none, plain, with a value, the month only
  constexpr std::array<int, 5> done_on{5, 10, 20, 25, 40};
  const int day = done_on[static_cast<std::size_t>(d.take(5))];
  const bool value_too = d.take(2) == 1;
  if (form != 0) {
    Planned p = service("oil", start + day);
    p.valued = form == 2;
    p.usage = true_usage(day);
    if (form == 3) {
      const Civil c = civil_of(start + day);
      p.fact.on = {day_of(c.year, c.month, 1), day_of(c.year, c.month, month_length(c.year, c.month))};
      // A value of the month only, where a later reading says what the meter shows today.
      p.valued = value_too && (mask & 8) != 0 && today >= 45;
      p.usage = true_usage(p.fact.on.first - start) + 50;
    }
    planned.push_back(p);
  }
  finish(w, planned);
  return w;
}

}  // namespace twin
