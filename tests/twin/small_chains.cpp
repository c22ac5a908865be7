// Small worlds of chains: where the next interval starts, after services on any days.
#include <array>

#include "limbs.h"
#include "small_worlds.h"

namespace twin {

World calendar_chains(Dial& d) {
  const Day start = day_of(2023, 1, 31);
  World w = small_world(d.take(3), start, 0);
  Task t;
  t.name = "look-over";
  const int limb = d.take(4);
  t.every = {limb == 0 ? calendar(20, Unit::days) : limb == 1 ? calendar(2, Unit::weeks) : calendar(1, Unit::months)};
  t.until_month_end = limb == 3;
  if (d.take(2) == 1) t.first = {limb == 0 ? calendar(1, Unit::months) : calendar(10, Unit::days)};
  t.counts_from = all_counts_from[static_cast<std::size_t>(d.take(3))];
  const int grace = d.take(6);
  if (grace == 1 || grace >= 4) w.grace = percent(10);
  if (grace == 2) t.grace = percent(20);
  if (grace == 3) t.grace = grace_days(3);
  t.safety = grace == 4;
  t.competent_person = grace == 5;
  w.schedules.front().tasks = {t};
  static const auto days = subsets({0, 10, 25, 28, 31, 33, 59, 62}, 3);
  std::vector<Planned> planned;
  for (const int day : days[static_cast<std::size_t>(d.take(static_cast<int>(days.size())))]) {
    planned.push_back(service("look-over", start + day));
    if (t.competent_person) planned.back().fact.by = "inspector";
  }
  constexpr std::array<int, 4> as_of{28, 31, 60, 91};
  w.as_of = start + as_of[static_cast<std::size_t>(d.take(4))];
  finish(w, planned);
  return w;
}

// Ten hours of use on every day.
World usage_chains(Dial& d) {
  const Day start = day_of(2023, 4, 1);
  const int kind = d.take(3);
  const Amount at = kind == 0 ? 0 : 500 * hundred;
  World w = small_world(kind, start, at);
  Task t;
  t.name = "oil";
  t.every = {hours(100 * hundred)};
  if (d.take(2) == 1) t.first = {hours(50 * hundred)};
  t.counts_from = all_counts_from[static_cast<std::size_t>(d.take(3))];
  const int grace = d.take(4);
  if (grace == 1 || grace == 3) w.grace = percent(5);
  if (grace == 2) {
    Grace g;
    g.hours = 10 * hundred;
    t.grace = g;
  }
  t.safety = grace == 3;
  w.schedules.front().tasks = {t};

  const bool dense = d.take(2) == 0;
  std::vector<Planned> planned;
  for (int day = 2; day <= 60; day += 1) {
    const bool read = dense ? day % 4 == 2 : day == 30 || day == 60;
    if (!read) continue;
    Planned p = plan(FactKind::reading, "unit", start + day);
    p.valued = true;
    p.usage = at + 10 * hundred * day;
    planned.push_back(p);
  }
  static const auto days = subsets({4, 9, 10, 11, 16, 20, 24}, 3);
  const auto& chosen = days[static_cast<std::size_t>(d.take(static_cast<int>(days.size())))];
  const int valued = d.take(3);  // none, all, every other
  for (std::size_t i = 0; i < chosen.size(); ++i) {
    Planned p = service("oil", start + chosen[i]);
    p.valued = valued == 1 || (valued == 2 && i % 2 == 0);
    p.usage = at + 10 * hundred * chosen[i];
    planned.push_back(p);
  }
  constexpr std::array<int, 4> as_of{11, 20, 25, 31};
  w.as_of = start + as_of[static_cast<std::size_t>(d.take(4))];
  finish(w, planned);
  return w;
}

}  // namespace twin
