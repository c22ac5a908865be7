// Small worlds of limbs that replace each other.
#include <array>

#include "limbs.h"
#include "small_worlds.h"

namespace twin {

// `first`, `in` and `change` against each other, five hours of use a day.
World which_limbs(Dial& d) {
  const Day start = day_of(2024, 2, 1);
  const int kind = d.take(2);
  World w = small_world(kind, start, 0);
  Task t;
  t.name = "oil";
  t.every = {hours(100 * hundred), calendar(1, Unit::months)};
  switch (d.take(4)) {
    case 1:
      t.first = {hours(50 * hundred)};
      break;
    case 2:
      t.first = {hours(50 * hundred), calendar(20, Unit::days)};
      break;
    case 3:
      t.first = {calendar(2, Unit::months)};
      break;
    default:
      break;
  }
  switch (d.take(4)) {
    case 1:
      t.in.push_back({"dusty", {hours(70 * hundred)}});
      break;
    case 2:
      t.in.push_back({"dusty", {calendar(3, Unit::weeks)}});
      break;
    case 3:
      t.in.push_back({"dusty", {hours(130 * hundred), calendar(29, Unit::days)}});
      break;
    default:
      break;
  }
  switch (d.take(3)) {
    case 1:
      t.in.push_back({"coastal", {hours(60 * hundred)}});
      break;
    case 2:
      t.in.push_back({"coastal", {calendar(1, Unit::months)}});
      break;
    default:
      break;
  }
  const int conditions = d.take(4);
  if ((conditions & 1) != 0) w.machines.front().conditions.push_back("dusty");
  if ((conditions & 2) != 0) w.machines.front().conditions.push_back("coastal");
  Change c;
  c.task = "oil";
  switch (d.take(4)) {
    case 1:
      c.every = {hours(80 * hundred)};
      break;
    case 2:
      c.every = {calendar(15, Unit::days)};
      break;
    case 3:
      c.every = {hours(80 * hundred)};
      c.first = {hours(30 * hundred)};
      break;
    default:
      break;
  }
  if (!c.every.empty()) w.machines.front().changes.push_back(c);
  t.counts_from = all_counts_from[static_cast<std::size_t>(d.take(3))];
  w.grace = percent(10);
  w.schedules.front().tasks = {t};

  std::vector<Planned> planned;
  for (const int day : {5, 12, 26, 40}) {
    Planned p = plan(FactKind::reading, "unit", start + day);
    p.valued = true;
    p.usage = 5 * hundred * day;
    planned.push_back(p);
  }
  const int services = d.take(3);
  if (services >= 1) planned.push_back(service("oil", start + 12));
  if (services >= 2) planned.push_back(service("oil", start + 26));
  constexpr std::array<int, 6> as_of{6, 12, 17, 29, 30, 42};
  w.as_of = start + as_of[static_cast<std::size_t>(d.take(6))];
  finish(w, planned);
  return w;
}

}  // namespace twin
