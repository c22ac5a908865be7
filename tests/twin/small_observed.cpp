// Small worlds of what is seen, measured, or due before a season.
#include <algorithm>
#include <array>

#include "limbs.h"
#include "small_worlds.h"

namespace twin {

World signs_and_measurements(Dial& d) {
  const Day start = day_of(2023, 10, 1);
  World w = small_world(d.take(3), start, 0);
  Task t;
  t.name = "element";
  const Limb leak = signs({"leak", "hard-start"});
  const Limb above = measured("restriction", true, 25 * hundred, "inH2O");
  const Limb below = measured("restriction", false, 25 * hundred, "inH2O");
  switch (d.take(6)) {
    case 0:
      t.every = {leak};
      break;
    case 1:
      t.every = {above};
      break;
    case 2:
      t.every = {below};
      break;
    case 3:
      t.every = {leak, calendar(1, Unit::weeks)};
      break;
    case 4:
      t.every = {hours(500 * hundred), above};
      break;
    default:
      t.every = {leak, above};
      break;
  }
  const int grace = d.take(5);
  if (grace == 1) {
    w.grace = grace_days(2);
    t.grace = percent(10);
  }
  if (grace == 2) t.grace = grace_days(3);
  if (grace >= 3) w.grace = grace_days(3);
  t.safety = grace == 3;
  w.schedules.front().tasks = {t};

  std::vector<Planned> planned;
  constexpr std::array<int, 3> slots{2, 5, 5};
  int before = 0;
  for (std::size_t i = 0; i < slots.size(); ++i) {
    const int event = d.take(9);
    // A measurement has no note, so the same value twice on a day would be the same row.
    const bool repeats = event >= 3 && event <= 5 && event == before && i > 0 && slots[i] == slots[i - 1];
    before = event;
    const bool lists_leak = !t.every.front().signs.empty();
    if (event == 0 || repeats || (event >= 7 && !lists_leak)) continue;
    const std::string note = "no " + std::to_string(i);
    if (event == 6) {
      Planned p = service("element", start + slots[i]);
      p.fact.note = note;
      planned.push_back(p);
      continue;
    }
    if (event >= 7) {
      Planned p = plan(FactKind::looked_at, "unit", start + slots[i]);
      p.fact.name = "leak";
      p.fact.found_good = event == 7;
      p.fact.by = "inspector";
      p.fact.note = note;
      planned.push_back(p);
      continue;
    }
    Planned p = plan(event <= 2 ? FactKind::sign : FactKind::measurement, "unit", start + slots[i]);
    if (event == 1) p.fact.name = "leak";
    if (event == 2) p.fact.name = "squeal";
    if (event >= 3) {
      p.fact.name = "restriction";
      p.fact.unit = "inH2O";
      p.fact.value = event == 3 ? 20 * hundred : event == 4 ? 25 * hundred : 25 * hundred + 10;
    } else {
      p.fact.note = note;
    }
    planned.push_back(p);
  }
  constexpr std::array<int, 3> as_of{5, 8, 9};
  w.as_of = start + as_of[static_cast<std::size_t>(d.take(3))];
  finish(w, planned);
  return w;
}

World seasons(Dial& d) {
  const Day start = day_of(2023, 1, 15);
  World w = small_world(d.take(3), start, 0);
  const std::array<Season, 4> kinds{Season{"harvest", 8, 1, 9, 20}, Season{"feeding", 11, 15, 2, 10},
                                    Season{"new-year", 12, 20, 1, 5}, Season{"lambing", 2, 25, 3, 10}};
  const Season kind = kinds[static_cast<std::size_t>(d.take(4))];
  w.seasons = {kind};
  constexpr std::array<int, 3> leads{0, 14, 30};
  const int lead = leads[static_cast<std::size_t>(d.take(3))];
  Task t;
  t.name = "ready";
  t.every = {season(kind.name, lead)};
  if (d.take(2) == 1) t.every.push_back(calendar(12, Unit::months));
  const int grace = d.take(3);
  if (grace == 1) w.grace = percent(10);
  if (grace == 2) w.grace = grace_days(3);
  w.schedules.front().tasks = {t};

  const Day begins = day_of(2023, kind.from_month, kind.from_day);
  const bool over = kind.to_month < kind.from_month;
  const Day ends = day_of(over ? 2024 : 2023, kind.to_month, kind.to_day);
  const Day next = day_of(2024, kind.from_month, kind.from_day);
  const std::vector<int> grid{begins - lead - 1 - start, begins - start,     ends - 1 - start, ends - start,
                              ends + 1 - start,          next - lead - start};
  std::vector<int> sensible;  // nothing before the machine was there; keeps the number of days the same
  for (const int day : grid) sensible.push_back(std::max(day, 0));
  const auto days = subsets(sensible, 2);
  std::vector<Planned> planned;
  int n = 0;
  for (const int day : days[static_cast<std::size_t>(d.take(static_cast<int>(days.size())))]) {
    planned.push_back(service("ready", start + day));
    planned.back().fact.note = "no " + std::to_string(n++);
  }
  const std::array<Day, 7> as_of{std::max(begins - lead, start),
                                 begins + 4,
                                 ends + 2,
                                 next - lead - 1,
                                 next - lead,
                                 next - lead + 3,
                                 next - lead + 4};
  w.as_of = as_of[static_cast<std::size_t>(d.take(7))];
  finish(w, planned);
  return w;
}

}  // namespace twin
