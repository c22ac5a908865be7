// Small worlds of tasks that cover, count and check each other.
#include <array>

#include "limbs.h"
#include "small_worlds.h"

namespace twin {

World covers_and_changes(Dial& d) {
  const Day start = day_of(2023, 5, 1);
  World w = small_world(d.take(3), start, 0);
  const bool with_positions = d.take(2) == 1;
  const int grace = d.take(3);

  Task primary;
  primary.name = "air-primary";
  primary.every = {calendar(1, Unit::weeks)};
  if (with_positions) primary.positions = {"left", "right"};
  FollowUp check;
  check.name = "seal";
  check.within = {calendar(2, Unit::days), hours(20 * hundred)};
  primary.follow_ups = {check};

  Task safety_element;
  safety_element.name = "air-safety";
  safety_element.every = {changes("air-primary", 2)};
  if (grace == 1) safety_element.grace = percent(50);
  if (grace == 2) {
    Grace g;
    g.changes = 1;
    g.days = 1;
    w.grace = g;
  }

  Task middle;
  middle.name = "small-service";
  middle.every = {hours(40 * hundred)};
  middle.covers = {"air-primary"};

  Task big;
  big.name = "big-service";
  big.every = {hours(90 * hundred), calendar(2, Unit::weeks)};
  big.covers = {"small-service"};

  w.schedules.front().tasks = {primary, safety_element, middle, big};

  std::vector<Planned> planned;
  bool parent_done = false;
  constexpr std::array<int, 4> slots{3, 6, 9, 9};
  for (std::size_t i = 0; i < slots.size(); ++i) {
    const int event = d.take(6);
    if (event == 0) continue;
    Planned p = service("air-primary", start + slots[i]);
    p.fact.note = "no " + std::to_string(i);  // no two rows are the same
    if (event == 2 && with_positions) p.fact.position = "left";
    if (event == 3) p.fact.task = "big-service";
    if (event == 4) p.fact.task = "air-safety";
    if (event == 5) {
      if (!parent_done) continue;  // a check of nothing
      p.fact.task = "air-primary/seal";
    }
    if (event <= 3) parent_done = true;
    if (i % 2 == 0) {
      p.valued = true;
      p.usage = 8 * hundred * slots[i];
    }
    planned.push_back(p);
  }
  for (const int day : {5, 11}) {
    Planned p = plan(FactKind::reading, "unit", start + day);
    p.valued = true;
    p.usage = 8 * hundred * day;
    planned.push_back(p);
  }
  constexpr std::array<int, 3> as_of{6, 9, 12};
  w.as_of = start + as_of[static_cast<std::size_t>(d.take(3))];
  finish(w, planned);
  return w;
}

}  // namespace twin
