#include "worlds.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <functional>
#include <map>
#include <random>
#include <set>
#include <stdexcept>

namespace twin {

namespace {

// ---- building blocks --------------------------------------------------------------------------------------------

constexpr Amount hundred = 100;

Limb hours(Amount hundredths) {
  Limb l;
  l.kind = Kind::usage;
  l.amount = hundredths;
  return l;
}

Limb usage(const std::string& meter, Amount hundredths) {
  Limb l = hours(hundredths);
  l.meter = meter;
  return l;
}

Limb calendar(int count, Unit unit) {
  Limb l;
  l.kind = Kind::calendar;
  l.count = count;
  l.unit = unit;
  return l;
}

Limb changes(const std::string& task, int n) {
  Limb l;
  l.kind = Kind::changes;
  l.name = task;
  l.count = n;
  return l;
}

Limb measured(const std::string& name, bool above, Amount limit, const std::string& unit) {
  Limb l;
  l.kind = Kind::measured;
  l.name = name;
  l.above = above;
  l.amount = limit;
  l.measure_unit = unit;
  return l;
}

Limb signs(std::vector<std::string> names) {
  Limb l;
  l.kind = Kind::sign;
  l.signs = std::move(names);
  return l;
}

Limb season(const std::string& name, int lead) {
  Limb l;
  l.kind = Kind::season;
  l.name = name;
  l.count = lead;
  return l;
}

Grace percent(int p) {
  Grace g;
  g.percent = p;
  return g;
}

Grace grace_days(int d) {
  Grace g;
  g.days = d;
  return g;
}

// A fact of one machine before its values are known: what the meter shows depends on changes and roll-overs before
// it, so that is filled in afterwards, walking the facts in order.
struct Planned {
  Fact fact;
  bool valued = false;   // carries a value of the meter (`at`, or the `last` of a meter change)
  Amount usage = 0;      // the true lifetime usage it stands for
  Amount new_first = 0;  // meter change: what the new meter shows
};

Planned plan(FactKind kind, const std::string& machine, Day day) {
  Planned p;
  p.fact.kind = kind;
  p.fact.machine = machine;
  p.fact.on = {day, day};
  return p;
}

// `planned` lies in the order of day, on a day in the order of entry. Adds the meter changes that roll-overs imply.
std::vector<Fact> with_values(const Machine& machine, const std::vector<Meter>& meters,
                              const std::vector<Planned>& planned) {
  struct Face {
    Amount offset = 0;
    std::optional<Amount> shown;
  };
  std::map<std::string, Face> faces;
  const auto show_start = [&] {
    if (machine.in_service)
      for (const Meter& m : meters) faces[m.name].shown = 0;
    if (machine.in_service) faces[meters.front().name].shown = machine.in_service->at;
    if (machine.bought) faces[meters.front().name].shown = machine.bought->at;
  };
  std::optional<Day> start;
  if (machine.in_service) start = machine.in_service->on;
  if (machine.bought) start = machine.bought->on;

  std::vector<Fact> facts;
  bool started = false;
  for (const Planned& p : planned) {
    if (start && !started && p.fact.on.first >= *start) {
      show_start();
      started = true;
    }
    Fact f = p.fact;
    if (!p.valued) {
      facts.push_back(f);
      continue;
    }
    const std::string name = f.meter.empty() ? meters.front().name : f.meter;
    const auto meter = std::find_if(meters.begin(), meters.end(), [&](const Meter& m) { return m.name == name; });
    Face& face = faces[name];
    Amount shown = p.usage - face.offset;

    if (!f.on.whole()) {
      // A value of a partial date stands only where it says the same on every day of its span.
      bool change_inside = false;
      for (const Planned& q : planned) {
        const std::string& other = q.fact.meter.empty() ? meters.front().name : q.fact.meter;
        if (q.fact.kind == FactKind::meter_change && other == name && q.fact.on.first >= f.on.first &&
            q.fact.on.first <= f.on.last)
          change_inside = true;
      }
      const bool rolled = meter->rolls_over_at && shown >= *meter->rolls_over_at;
      if (!change_inside && !rolled && shown >= 0) f.at = shown;
      facts.push_back(f);
      continue;
    }

    std::vector<std::size_t> added;
    while (meter->rolls_over_at && shown >= *meter->rolls_over_at) {
      Fact change = plan(FactKind::meter_change, f.machine, f.on.first).fact;
      change.meter = f.meter;
      change.last = *meter->rolls_over_at;
      change.first = 0;
      face.offset += *meter->rolls_over_at;
      shown -= *meter->rolls_over_at;
      added.push_back(facts.size());
      facts.push_back(change);
    }
    // A plain reading shows the roll-over by itself only where it is lower than the one before.
    if (added.size() == 1 && face.shown && shown < *face.shown && f.kind != FactKind::meter_change)
      facts[added.front()].implied = true;

    if (f.kind == FactKind::meter_change) {
      f.last = shown;
      f.first = p.new_first;
      face.offset = p.usage - p.new_first;
      face.shown = p.new_first;
    } else {
      f.at = shown;
      face.shown = shown;
    }
    facts.push_back(f);
  }
  return facts;
}

bool same_row(const Fact& a, const Fact& b) {
  return a.kind == b.kind && a.machine == b.machine && a.on.first == b.on.first && a.on.last == b.on.last &&
         a.meter == b.meter && a.at == b.at && a.task == b.task && a.position == b.position && a.name == b.name &&
         a.value == b.value && a.unit == b.unit && a.last == b.last && a.first == b.first && a.until == b.until &&
         a.by == b.by && a.note == b.note && a.strikes == b.strikes;
}

// A row that equals an earlier one would be skipped on entry, so a world has none.
void drop_repeats(std::vector<Fact>& facts) {
  std::vector<Fact> kept;
  for (const Fact& f : facts) {
    const bool repeat = f.kind != FactKind::meter_change &&
                        std::any_of(kept.begin(), kept.end(), [&](const Fact& k) { return same_row(k, f); });
    if (!repeat) kept.push_back(f);
  }
  facts = std::move(kept);
}

void number_in_order(World& world) {
  int entry = 0;
  for (Fact& f : world.facts) f.entry = entry++;
}

// ---- the families -----------------------------------------------------------------------------------------------

// Takes one digit after the other off an index. How many digits there are, and how large each may be, must not
// depend on the digits: then the product is the number of worlds.
class Dial {
 public:
  explicit Dial(std::size_t index) : rest_(index) {}
  int take(int n) {
    size_ *= static_cast<std::size_t>(n);
    const int digit = static_cast<int>(rest_ % static_cast<std::size_t>(n));
    rest_ /= static_cast<std::size_t>(n);
    return digit;
  }
  std::size_t size() const { return size_; }

 private:
  std::size_t rest_;
  std::size_t size_ = 1;
};

// All subsets of at most `most` of the grid's days.
std::vector<std::vector<int>> subsets(const std::vector<int>& grid, int most) {
  std::vector<std::vector<int>> all;
  for (unsigned mask = 0; mask < (1u << grid.size()); ++mask) {
    std::vector<int> chosen;
    for (std::size_t i = 0; i < grid.size(); ++i)
      if ((mask >> i & 1u) != 0) chosen.push_back(grid[i]);
    if (static_cast<int>(chosen.size()) <= most) all.push_back(chosen);
  }
  return all;
}

World small_world(int start_kind, Day start, Amount at) {
  World w;
  Schedule s;
  s.name = "kind";
  w.schedules.push_back(s);
  Machine m;
  m.name = "unit";
  m.schedule = "kind";
  if (start_kind == 0) m.in_service = Start{start, at};
  if (start_kind == 1) m.bought = Start{start, at};
  w.machines.push_back(m);
  return w;
}

void finish(World& w, std::vector<Planned>& planned) {
  std::stable_sort(planned.begin(), planned.end(),
                   [](const Planned& a, const Planned& b) { return a.fact.on.first < b.fact.on.first; });
  w.facts = with_values(w.machines.front(), meters_of(w, w.machines.front()), planned);
  number_in_order(w);
}

Planned service(const std::string& task, Day day) {
  Planned p = plan(FactKind::service, "unit", day);
  p.fact.task = task;
  return p;
}

constexpr std::array<CountsFrom, 3> all_counts_from{CountsFrom::done, CountsFrom::due, CountsFrom::earlier};

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
  const int grace = d.take(5);
  if (grace == 1 || grace == 4) w.grace = percent(10);
  if (grace == 2) t.grace = percent(20);
  if (grace == 3) t.grace = grace_days(3);
  t.safety = grace == 4;
  w.schedules.front().tasks = {t};
  static const auto days = subsets({0, 10, 25, 28, 31, 33, 59, 62}, 3);
  std::vector<Planned> planned;
  for (const int day : days[static_cast<std::size_t>(d.take(static_cast<int>(days.size())))])
    planned.push_back(service("look-over", start + day));
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
  const int grace = d.take(4);
  if (grace == 1) {
    w.grace = grace_days(2);
    t.grace = percent(10);
  }
  if (grace == 2) t.grace = grace_days(3);
  if (grace == 3) w.grace = grace_days(3);
  t.safety = grace == 3;
  w.schedules.front().tasks = {t};

  std::vector<Planned> planned;
  constexpr std::array<int, 3> slots{2, 5, 5};
  int before = 0;
  for (std::size_t i = 0; i < slots.size(); ++i) {
    const int event = d.take(7);
    // A measurement has no note, so the same value twice on a day would be the same row.
    const bool repeats = event >= 3 && event <= 5 && event == before && i > 0 && slots[i] == slots[i - 1];
    before = event;
    if (event == 0 || repeats) continue;
    const std::string note = "no " + std::to_string(i);
    if (event == 6) {
      Planned p = service("element", start + slots[i]);
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

struct Family {
  const char* name;
  World (*build)(Dial&);
};

constexpr std::array<Family, 7> families{{{"calendar chains", calendar_chains},
                                          {"usage chains", usage_chains},
                                          {"which limbs hold", which_limbs},
                                          {"covers, changes, follow-ups", covers_and_changes},
                                          {"signs and measurements", signs_and_measurements},
                                          {"seasons", seasons},
                                          {"meters", meters}}};

}  // namespace

int family_count() { return static_cast<int>(families.size()); }
const char* family_name(int family) { return families.at(static_cast<std::size_t>(family)).name; }

std::size_t family_size(int family) {
  Dial d(0);
  families.at(static_cast<std::size_t>(family)).build(d);
  return d.size();
}

World family_world(int family, std::size_t index) {
  Dial d(index);
  return families.at(static_cast<std::size_t>(family)).build(d);
}

// ---- random worlds ----------------------------------------------------------------------------------------------

namespace {

class Luck {
 public:
  explicit Luck(std::uint64_t seed) : engine_(seed) {}
  // The same on every platform, which the standard distributions are not.
  int below(int n) { return static_cast<int>(engine_() % static_cast<std::uint64_t>(n)); }
  int between(int low, int high) { return low + below(high - low + 1); }
  bool chance(int percent_of_cases) { return below(100) < percent_of_cases; }
  template <class T>
  const T& one_of(const std::vector<T>& list) {
    return list[static_cast<std::size_t>(below(static_cast<int>(list.size())))];
  }

 private:
  std::mt19937_64 engine_;
};

Limb random_calendar(Luck& luck) {
  switch (luck.below(5)) {
    case 0:
      return calendar(luck.between(20, 200), Unit::days);
    case 1:
      return calendar(luck.between(3, 30), Unit::weeks);
    case 4:
      return calendar(luck.between(1, 2), Unit::years);
    default:
      return calendar(luck.one_of(std::vector<int>{1, 2, 3, 6, 12, 18}), Unit::months);
  }
}

Amount random_interval(Luck& luck) {
  if (luck.chance(20)) return 100 * luck.between(50, 400) + luck.one_of(std::vector<int>{25, 50, 33, 75});
  return 100 * luck.one_of(std::vector<int>{50, 100, 125, 250, 500, 1000});
}

std::string name_of_task(int i) {
  static const std::vector<std::string> names{"grease", "engine-oil", "air-primary", "air-safety", "big-service"};
  return names[static_cast<std::size_t>(i)];
}

struct RandomMachine {
  const Machine* machine = nullptr;
  std::vector<Meter> meters;
  Day truth_from = 0;
  std::map<std::string, std::vector<Amount>> truth;  // the usage at the end of each day from `truth_from`

  Amount at_end_of(const std::string& meter, Day day) const {
    const std::vector<Amount>& t = truth.at(meter);
    const int i = std::clamp(day - truth_from, 0, static_cast<int>(t.size()) - 1);
    return t[static_cast<std::size_t>(i)];
  }
};

Limb random_usage_limb(Luck& luck, const std::vector<Meter>& meters, std::size_t which) {
  const Amount interval = random_interval(luck);
  const Meter& m = meters[which];
  if (m.unit == "h") {
    bool first_in_hours = true;
    for (std::size_t i = 0; i < which; ++i)
      if (meters[i].unit == "h") first_in_hours = false;
    if (first_in_hours && luck.chance(80)) return hours(interval);
    return usage(m.name, interval);
  }
  return usage(m.name, interval * 10);
}

// Limbs for `first`, `in` and `change`: other numbers for some of the usage and calendar limbs, sometimes a new one.
std::vector<Limb> random_replacement(Luck& luck, const std::vector<Limb>& every) {
  std::vector<Limb> limbs;
  for (const Limb& limb : every) {
    if (!luck.chance(60)) continue;
    if (limb.kind == Kind::usage) {
      Limb l = limb;
      l.amount = limb.amount * luck.one_of(std::vector<int>{40, 50, 80, 120}) / 100;
      limbs.push_back(l);
    } else if (limb.kind == Kind::calendar) {
      limbs.push_back(random_calendar(luck));
    } else if (limb.kind == Kind::changes) {
      Limb l = limb;
      l.count = luck.between(1, 3);
      limbs.push_back(l);
    } else if (limb.kind == Kind::measured) {
      Limb l = limb;
      l.amount += 100 * luck.between(-1, 1);
      limbs.push_back(l);
    }
  }
  const bool has_calendar =
      std::any_of(every.begin(), every.end(), [](const Limb& l) { return l.kind == Kind::calendar; });
  if (limbs.empty() || (!has_calendar && luck.chance(20))) {
    const bool already =
        std::any_of(limbs.begin(), limbs.end(), [](const Limb& l) { return l.kind == Kind::calendar; });
    if (!already) limbs.push_back(random_calendar(luck));
  }
  return limbs;
}

std::optional<Grace> random_grace(Luck& luck, const std::vector<Meter>& meters, bool for_fleet) {
  switch (luck.below(for_fleet ? 4 : 6)) {
    case 0:
      return percent(luck.one_of(std::vector<int>{0, 5, 7, 10, 15, 20}));
    case 1: {
      // Never as long as the shortest interval, which is 20 h, 20 days or one change.
      Grace g;
      if (luck.chance(60)) g.hours = luck.one_of(std::vector<int>{500, 1000, 1250});
      if (luck.chance(60)) g.days = luck.between(1, 14);
      if (luck.chance(30)) g.changes = 1;
      if (!for_fleet && !g.hours) {
        const Meter& m = meters.back();
        if (luck.chance(50)) g.usage.emplace_back(m.name, m.unit == "h" ? 800 : 5000);
      }
      if (!g.hours && !g.days && !g.changes && g.usage.empty()) g.days = 5;
      return g;
    }
    default:
      return std::nullopt;
  }
}

Task random_task(Luck& luck, int i, const std::vector<Task>& before, const std::vector<Meter>& meters,
                 const std::vector<Season>& seasons_of_fleet, const RandomOptions& options) {
  Task t;
  t.name = name_of_task(i);
  if (luck.chance(70)) {
    const auto which = static_cast<std::size_t>(luck.below(static_cast<int>(meters.size())));
    t.every.push_back(random_usage_limb(luck, meters, which));
    if (meters.size() > 1 && luck.chance(25)) {
      const std::size_t other = (which + 1) % meters.size();
      const Limb l = random_usage_limb(luck, meters, other);
      t.every.push_back(l);
    }
  }
  if (luck.chance(60)) t.every.push_back(random_calendar(luck));
  if (!before.empty() && luck.chance(20)) t.every.push_back(changes(luck.one_of(before).name, luck.between(1, 3)));
  if (luck.chance(15))
    t.every.push_back(measured("restriction", true, 25 * hundred, "inH2O"));
  else if (luck.chance(12))
    t.every.push_back(measured("tread", false, 3 * hundred, "mm"));
  if (luck.chance(20))
    t.every.push_back(
        signs(luck.chance(50) ? std::vector<std::string>{"leak"} : std::vector<std::string>{"leak", "hard-start"}));
  if (!seasons_of_fleet.empty() && luck.chance(20))
    t.every.push_back(season(luck.one_of(seasons_of_fleet).name, luck.one_of(std::vector<int>{0, 7, 14, 30})));
  if (t.every.empty()) t.every.push_back(random_calendar(luck));
  // The written order varies, with limbs of one key side by side.
  if (luck.chance(40)) std::rotate(t.every.begin(), t.every.begin() + 1, t.every.end());
  std::stable_sort(t.every.begin(), t.every.end(), [](const Limb& a, const Limb& b) {
    // `usage:` is one key, `hours:` another: keep the named meters together at the front of the usage limbs.
    const auto rank = [](const Limb& l) { return l.kind == Kind::usage && !l.meter.empty() ? 0 : 1; };
    return rank(a) < rank(b);
  });

  if (luck.chance(35)) t.first = random_replacement(luck, t.every);
  if (luck.chance(30)) t.in.push_back({"dusty", random_replacement(luck, t.every)});
  if (luck.chance(20)) t.in.push_back({"coastal", random_replacement(luck, t.every)});
  t.grace = random_grace(luck, meters, false);
  t.safety = luck.chance(12);
  t.counts_from = all_counts_from[static_cast<std::size_t>(luck.below(3))];
  t.until_month_end = luck.chance(15);
  t.competent_person = luck.chance(10);
  if (luck.chance(25)) t.positions = {"front-left", "front-right"};
  if (luck.chance(15)) t.positions.push_back("rear");
  for (const Task& b : before) {
    if (!luck.chance(25)) continue;
    if (!t.positions.empty() && t.positions != b.positions) continue;
    if (b.competent_person && !t.competent_person && !options.idle_covers) continue;
    t.covers.push_back(b.name);
  }
  if (luck.chance(30)) {
    FollowUp f;
    f.name = "check-leaks";
    if (luck.chance(70)) f.within.push_back(hours(100 * luck.between(1, 20)));
    if (f.within.empty() || luck.chance(40)) f.within.push_back(calendar(luck.between(2, 20), Unit::days));
    t.follow_ups.push_back(f);
    if (luck.chance(30)) t.follow_ups.push_back(FollowUp{"re-torque", {hours(10 * hundred)}});
  }
  return t;
}

// Days without use, days of a few hours, days of the harvest: at most 20 h a day.
std::vector<Amount> random_truth(Luck& luck, Amount start, int days, bool in_hours, bool gentle) {
  std::vector<Amount> truth;
  Amount now = start;
  int mood = 0;
  for (int i = 0; i < days; ++i) {
    if (i % 11 == 0) mood = luck.below(4);
    truth.push_back(now);
    Amount step = 0;
    if (mood == 1) step = luck.below(500);
    if (mood == 2) step = luck.below(900);
    if (mood == 3) step = gentle ? luck.below(600) : luck.below(2000);
    now += in_hours ? step : 5 * step;
  }
  return truth;
}

const std::vector<std::string>& conditions_known() {
  static const std::vector<std::string> list{"dusty", "coastal"};
  return list;
}

// The tasks whose follow-ups a service of `task` starts.
std::vector<const Task*> parents_in(const Schedule& schedule, const std::string& task) {
  std::vector<const Task*> list;
  const std::vector<std::string> names = done_with(schedule, task);
  for (const Task& t : schedule.tasks)
    if (!t.follow_ups.empty() && std::find(names.begin(), names.end(), t.name) != names.end()) list.push_back(&t);
  return list;
}

std::vector<Fact> random_facts(Luck& luck, const World& w, const RandomMachine& rm, const Schedule& schedule,
                               const RandomOptions& options) {
  const Machine& m = *rm.machine;
  const bool is_new = m.in_service.has_value();
  const Day begin = is_new ? m.in_service->on : m.bought ? m.bought->on : rm.truth_from + 700;
  const Day end = w.as_of + 30;
  const Day oldest_service = is_new ? begin : begin - 600;
  std::vector<Planned> planned;

  const auto meter_for = [&](Planned& p, const std::string& name) {
    // The first meter may be left out, and usually is.
    if (name != rm.meters.front().name || luck.chance(15)) p.fact.meter = name;
  };
  const auto any_meter = [&] { return luck.one_of(rm.meters).name; };

  const int readings = luck.chance(8) ? 0 : luck.between(1, 7);
  for (int i = 0; i < readings; ++i) {
    Planned p = plan(FactKind::reading, m.name, luck.between(begin, end));
    p.valued = true;
    meter_for(p, luck.chance(65) ? rm.meters.front().name : any_meter());
    planned.push_back(p);
    if (luck.chance(12)) planned.push_back(p);  // twice on a day
  }
  if (luck.chance(25)) {
    Planned p = plan(FactKind::meter_change, m.name, luck.between(begin, end));
    p.valued = true;
    meter_for(p, luck.chance(70) ? rm.meters.front().name : any_meter());
    p.new_first = luck.chance(50) ? 0 : luck.between(1, 90000);
    const auto meter = std::find_if(rm.meters.begin(), rm.meters.end(), [&](const Meter& x) {
      return x.name == (p.fact.meter.empty() ? rm.meters.front().name : p.fact.meter);
    });
    if (!meter->rolls_over_at) planned.push_back(p);
  }

  const int services = luck.chance(10) ? 0 : luck.between(1, 6);
  for (int i = 0; i < services; ++i) {
    const Task& t = luck.one_of(schedule.tasks);
    const bool old = !is_new && luck.chance(25);
    Planned p =
        plan(FactKind::service, m.name, old ? luck.between(oldest_service, begin - 1) : luck.between(begin, end));
    p.fact.task = t.name;
    if (!t.positions.empty() && luck.chance(60)) p.fact.position = luck.one_of(t.positions);
    if (t.competent_person || luck.chance(20)) p.fact.by = "inspector";
    if (options.partial_dates && luck.chance(25)) {
      const Civil c = civil_of(p.fact.on.first);
      Span span;
      if (luck.chance(50))
        span = {day_of(c.year, 1, 1), day_of(c.year, 12, 31)};
      else
        span = {day_of(c.year, c.month, 1), day_of(c.year, c.month, month_length(c.year, c.month))};
      if (span.first >= oldest_service) p.fact.on = span;
    }
    if (luck.chance(55)) {
      p.valued = true;
      meter_for(p, luck.chance(80) ? rm.meters.front().name : any_meter());
    }
    planned.push_back(p);

    for (const Task* parent : parents_in(schedule, t.name)) {
      for (const FollowUp& f : parent->follow_ups) {
        if (!luck.chance(45)) continue;
        const Day day = p.fact.on.last + luck.between(0, 20);
        if (day > end) continue;
        Planned check = plan(FactKind::service, m.name, day);
        check.fact.task = parent->name + "/" + f.name;
        // Checked where it was done: at one position, or at all.
        if (!parent->positions.empty() && !p.fact.position.empty()) check.fact.position = p.fact.position;
        if (parent->competent_person) check.fact.by = "inspector";
        planned.push_back(check);
      }
    }
    // On the same day again, or a sign that is older or newer than it on that day.
    if (p.fact.on.whole() && luck.chance(10)) {
      Planned again = p;
      again.valued = !p.valued;
      if (!again.valued) again.fact.meter.clear();
      planned.push_back(again);
    }
    if (p.fact.on.first >= begin && luck.chance(15)) {
      Planned sign = plan(FactKind::sign, m.name, p.fact.on.first);
      sign.fact.name = "leak";
      planned.insert(luck.chance(50) ? planned.end() - 1 : planned.end(), sign);
    }
  }

  for (int i = luck.below(3); i > 0; --i) {
    Planned p = plan(FactKind::sign, m.name, luck.between(begin, end));
    p.fact.name = luck.one_of(std::vector<std::string>{"leak", "hard-start", "squeal"});
    planned.push_back(p);
  }
  // A measurement names a position only where every task that has such a limit has that position.
  for (int i = luck.below(4); i > 0; --i) {
    Planned p = plan(FactKind::measurement, m.name, luck.between(begin, end));
    p.fact.name = luck.chance(60) ? "restriction" : "tread";
    p.fact.unit = p.fact.name == "restriction" ? "inH2O" : "mm";
    const Amount limit = p.fact.name == "restriction" ? 25 * hundred : 3 * hundred;
    p.fact.value = std::max<Amount>(0, limit + luck.one_of(std::vector<int>{-200, -10, 0, 0, 10, 150}));
    std::optional<std::vector<std::string>> common;
    bool used = false;
    for (const Task& t : schedule.tasks)
      for (const Limb& l : t.every)
        if (l.kind == Kind::measured && l.name == p.fact.name) {
          used = true;
          if (!common)
            common = t.positions;
          else if (*common != t.positions)
            common = std::vector<std::string>{};
        }
    if (used && common && !common->empty() && luck.chance(70)) p.fact.position = luck.one_of(*common);
    if (used) planned.push_back(p);
  }
  for (int i = luck.below(3); i > 0; --i) {
    const Task& t = luck.one_of(schedule.tasks);
    if (t.safety) continue;
    Planned p = plan(FactKind::put_off, m.name, luck.between(begin, end));
    p.fact.task = t.name;
    if (!t.positions.empty() && luck.chance(50)) p.fact.position = luck.one_of(t.positions);
    p.fact.by = "owner";
    p.fact.note = "wait";
    const int form = luck.below(3);
    if (form != 0) p.fact.until = p.fact.on.first + luck.between(1, 150);
    // `at` is a usage, not a value of the meter that may have been changed since.
    if (form != 1) {
      std::string meter = rm.meters.front().name;
      for (const Limb& l : t.every)
        if (l.kind == Kind::usage) {
          meter = l.meter;
          if (meter.empty())
            for (const Meter& x : rm.meters)
              if (x.unit == "h") {
                meter = x.name;
                break;
              }
          break;
        }
      p.fact.at = rm.at_end_of(meter, p.fact.on.first) + luck.between(0, 20000);
    }
    planned.push_back(p);
  }
  for (int i = luck.chance(25) ? luck.between(1, 3) : 0; i > 0; --i) {
    const FactKind kind = luck.one_of(std::vector<FactKind>{FactKind::laid_up, FactKind::out_of_use, FactKind::back});
    Planned p = plan(kind, m.name, luck.between(begin, end));
    if (kind == FactKind::laid_up && luck.chance(50)) p.fact.until = p.fact.on.first + luck.between(1, 120);
    planned.push_back(p);
  }

  if (m.left) std::erase_if(planned, [&](const Planned& p) { return p.fact.on.last >= *m.left; });

  std::stable_sort(planned.begin(), planned.end(),
                   [](const Planned& a, const Planned& b) { return a.fact.on.first < b.fact.on.first; });

  // Values: those of a day share out the use of that day in their order.
  const auto meter_name = [&](const Planned& p) {
    return p.fact.meter.empty() ? rm.meters.front().name : p.fact.meter;
  };
  for (std::size_t i = 0; i < planned.size(); ++i) {
    Planned& p = planned[i];
    if (!p.valued) continue;
    const std::string name = meter_name(p);
    const Day day = p.fact.on.first;
    const Amount before = rm.at_end_of(name, day - 1);
    const Amount after = rm.at_end_of(name, day);
    if (p.fact.on.whole()) {
      int place = 0, of = 0;
      for (std::size_t j = 0; j < planned.size(); ++j) {
        if (planned[j].fact.on.first != day || !planned[j].valued || !planned[j].fact.on.whole()) continue;
        ++of;
        if (j <= i) ++place;
      }
      p.usage = before + (after - before) * place / of;
    } else {
      // Somewhere in the span, but before the next value of that meter, so that it contradicts none; and only
      // where a later value says what the meter shows on the as-of day.
      Day limit = p.fact.on.last;
      bool shown_later = false;
      for (std::size_t j = 0; j < planned.size(); ++j) {
        const Planned& q = planned[j];
        if (!q.valued || !q.fact.on.whole() || meter_name(q) != name) continue;
        if (q.fact.on.first > day) limit = std::min(limit, q.fact.on.first - 1);
        if (q.fact.on.first >= p.fact.on.last && q.fact.on.first <= w.as_of) shown_later = true;
      }
      if (m.bought && name == rm.meters.front().name && m.bought->on > day) limit = std::min(limit, m.bought->on - 1);
      p.usage = rm.at_end_of(name, luck.between(day, std::max(day, limit)));
      if (!shown_later) p.valued = false;
    }
    if (!p.valued) p.fact.meter.clear();
  }
  std::vector<Fact> facts = with_values(m, rm.meters, planned);
  drop_repeats(facts);
  return facts;
}

// A random world seldom stands exactly on a due point, and that is where the mistakes are. So most worlds are moved
// there: the as-of day to a due day, or to the last day of grace, or one off either; or a last reading is added that
// is exactly on a due point, or at the end of grace, or a hundredth off.
bool values_are_shown_later(const World& w) {
  for (const Fact& f : w.facts) {
    if (f.on.whole() || !f.at || f.on.first > w.as_of) continue;
    const bool shown = std::any_of(w.facts.begin(), w.facts.end(), [&](const Fact& g) {
      return g.machine == f.machine && g.meter == f.meter && g.at && g.on.whole() && g.kind == FactKind::reading &&
             g.on.first >= f.on.last && g.on.first <= w.as_of;
    });
    if (!shown) return false;
  }
  return true;
}

void move_to_a_due_day(Luck& luck, World& w) {
  std::vector<Day> candidates;
  for (const PointAnswer& p : evaluate(w).points)
    for (const LimbAnswer& a : p.limbs) {
      if (!a.due_on) continue;
      const Day grace = a.limb.kind == Kind::calendar || a.limb.kind == Kind::sign || a.limb.kind == Kind::season
                            ? static_cast<Day>(a.grace.value_or(0))
                            : 0;
      const Day day = *a.due_on + luck.one_of(std::vector<Day>{-1, 0, 0, 1, grace, grace + 1});
      if (std::abs(day - w.as_of) < 500 && day > day_of(2021, 1, 1) && day < day_of(2025, 12, 31))
        candidates.push_back(day);
    }
  if (candidates.empty()) return;
  World moved = w;
  moved.as_of = luck.one_of(candidates);
  if (values_are_shown_later(moved)) w = moved;
}

void add_a_telling_reading(Luck& luck, World& w) {
  struct Target {
    std::string machine, meter;
    Amount gain;
  };
  std::vector<Target> targets;
  for (const PointAnswer& p : evaluate(w).points)
    for (const LimbAnswer& a : p.limbs)
      if (a.limb.kind == Kind::usage && a.left) {
        const Amount more = luck.one_of(std::vector<Amount>{-1, 0, 0, *a.grace, *a.grace + 1});
        if (*a.left + more > 0) targets.push_back({p.machine, a.limb.meter, *a.left + more});
      }
  if (targets.empty()) return;
  const Target target = luck.one_of(targets);
  const auto machine =
      std::find_if(w.machines.begin(), w.machines.end(), [&](const Machine& m) { return m.name == target.machine; });
  const std::vector<Meter> meters = meters_of(w, *machine);
  const Meter& meter =
      *std::find_if(meters.begin(), meters.end(), [&](const Meter& m) { return m.name == target.meter; });

  // What the meter shows last, by all the facts that are there.
  std::vector<const Fact*> sorted;
  for (const Fact& f : w.facts)
    if (f.kind != FactKind::strike && f.machine == target.machine && f.on.first <= w.as_of) sorted.push_back(&f);
  std::sort(sorted.begin(), sorted.end(), [](const Fact* a, const Fact* b) {
    return a->on.first != b->on.first ? a->on.first < b->on.first : a->entry < b->entry;
  });
  std::optional<Day> day;
  Amount shown = 0;
  if (machine->in_service) day = machine->in_service->on;
  if (machine->in_service && meter.name == meters.front().name) shown = machine->in_service->at;
  if (machine->bought && meter.name == meters.front().name) {
    day = machine->bought->on;
    shown = machine->bought->at;
  }
  for (const Fact* f : sorted) {
    if ((f->meter.empty() ? meters.front().name : f->meter) != meter.name) continue;
    if (day && f->on.first < *day) continue;
    if ((f->kind == FactKind::reading || f->kind == FactKind::service) && f->at && f->on.whole()) {
      day = f->on.first;
      shown = *f->at;
    }
    if (f->kind == FactKind::meter_change) {
      day = f->on.first;
      shown = *f->first;
    }
  }
  if (!day || (meter.unit == "h" && target.gain > 20 * hundred * (w.as_of - *day))) return;
  if (meter.rolls_over_at && shown + target.gain >= *meter.rolls_over_at) return;

  Fact f = plan(FactKind::reading, target.machine, w.as_of).fact;
  if (meter.name != meters.front().name) f.meter = meter.name;
  f.at = shown + target.gain;
  for (const Fact& g : w.facts) f.entry = std::max(f.entry, g.entry + 1);
  World more = w;
  more.facts.push_back(f);
  if (problem(more).empty()) w = more;
}

}  // namespace

World random_world(std::uint64_t seed, const RandomOptions& options) {
  Luck luck(seed);
  World w;
  if (luck.chance(60)) {
    w.grace = random_grace(luck, {}, true);
  }
  const std::vector<Season> known{{"harvest", 8, 1, 9, 20}, {"feeding", 11, 15, 2, 10}, {"new-year", 12, 20, 1, 5}};
  for (const Season& s : known)
    if (luck.chance(70)) w.seasons.push_back(s);

  const Day begin = day_of(2021, 6, 1) + luck.below(400);
  w.as_of = std::min(begin + luck.between(120, 1100), day_of(2025, 6, 30));
  // Often a day on which something about months can go wrong.
  if (luck.chance(20))
    w.as_of = luck.one_of(std::vector<Day>{day_of(2024, 2, 29), day_of(2024, 2, 28), day_of(2023, 2, 28),
                                           day_of(2024, 12, 31), day_of(2024, 3, 31)});

  const int schedules = luck.chance(25) ? 2 : 1;
  for (int i = 0; i < schedules; ++i) {
    Schedule s;
    s.name = i == 0 ? "tractor" : "harvester";
    const int kind = luck.below(5);
    if (kind == 1) s.meters = {Meter{"engine", "h", std::nullopt}, Meter{"separator", "h", std::nullopt}};
    if (kind == 2) s.meters = {Meter{"road", "km", std::nullopt}, Meter{"engine", "h", std::nullopt}};
    if (kind == 3) s.meters = {Meter{"engine", "h", std::nullopt}, Meter{"bales", "bales", std::nullopt}};
    if (kind == 4) s.meters = {Meter{"engine", "h", std::nullopt}};
    const std::vector<Meter> meters =
        s.meters.empty() ? std::vector<Meter>{Meter{"engine", "h", std::nullopt}} : s.meters;
    const int tasks = luck.between(1, 4);
    for (int k = 0; k < tasks; ++k) s.tasks.push_back(random_task(luck, k, s.tasks, meters, w.seasons, options));
    w.schedules.push_back(s);
  }

  const int machines = luck.chance(30) ? 2 : 1;
  std::vector<RandomMachine> built;
  for (int i = 0; i < machines; ++i) {
    const Schedule& schedule = w.schedules[static_cast<std::size_t>(luck.below(schedules))];
    Machine m;
    m.name = i == 0 ? "loader" : "old-loader";
    m.schedule = schedule.name;
    for (const std::string& c : conditions_known())
      if (luck.chance(40)) m.conditions.push_back(c);
    const Day start = luck.chance(4) ? w.as_of + luck.between(0, 10) : begin + luck.between(-20, 60);
    const int start_kind = luck.below(10);  // new, bought, neither
    std::vector<Meter> meters =
        schedule.meters.empty() ? std::vector<Meter>{Meter{"engine", "h", std::nullopt}} : schedule.meters;
    const bool rolls = options.roll_overs && start_kind < 8 && meters.front().unit == "h" && luck.chance(35);
    if (rolls) {
      meters.front().rolls_over_at = 10000 * hundred;
      m.meters = meters;
    }

    RandomMachine rm;
    rm.meters = meters;
    rm.truth_from = start - 700;
    const int days = w.as_of + 60 - rm.truth_from;
    for (std::size_t k = 0; k < meters.size(); ++k) {
      Amount at = 0;
      if (start_kind >= 4) at = 100 * luck.between(200, 4000) + luck.below(100);
      std::vector<Amount> truth = random_truth(luck, at, days, meters[k].unit == "h", rolls);
      if (start_kind < 4) {
        // New: nothing before the in-service day but the delivery hours of the first meter.
        const Amount delivery = k == 0 ? (rolls             ? 100 * luck.between(9000, 9990)
                                          : luck.chance(50) ? 0
                                                            : luck.between(1, 2000))
                                       : 0;
        const std::vector<Amount> used = truth;
        for (std::size_t d = 0; d < truth.size(); ++d) {
          const std::size_t zero = 699;
          truth[d] = d <= zero ? delivery : delivery + used[d] - used[zero];
        }
      } else if (k == 0 && rolls) {
        // Close to rolling over on the day it was bought, and below before.
        const Amount then = truth[699];
        const Amount wanted = 100 * luck.between(9000, 9990);
        const Amount lift = wanted > then ? wanted - then : 0;
        for (Amount& t : truth) t += lift;
        if (truth[699] >= 10000 * hundred) throw std::logic_error("rolled over before it was bought");
      }
      rm.truth[meters[k].name] = truth;
    }
    const Amount first_at = rm.at_end_of(meters.front().name, start - 1);
    if (start_kind < 4)
      m.in_service = Start{start, first_at};
    else if (start_kind < 8)
      m.bought = Start{start, first_at};
    // A machine cannot have left before it came.
    if (luck.chance(8)) m.left = std::max(w.as_of + luck.between(-40, 40), start + 1);

    for (const Task& t : schedule.tasks) {
      if (!luck.chance(20)) continue;
      Change c;
      c.task = t.name;
      c.every = random_replacement(luck, t.every);
      if (luck.chance(40)) c.first = random_replacement(luck, t.every);
      m.changes.push_back(c);
    }
    w.machines.push_back(m);
    built.push_back(rm);
  }
  for (std::size_t i = 0; i < built.size(); ++i) built[i].machine = &w.machines[i];

  for (const RandomMachine& rm : built) {
    const Schedule& schedule = *schedule_of(w, *rm.machine);
    const std::vector<Fact> facts = random_facts(luck, w, rm, schedule, options);
    w.facts.insert(w.facts.end(), facts.begin(), facts.end());
  }

  // Facts are entered in any order of days; on one day the order of entry is the order of facts, so that stays.
  std::vector<int> entries;
  for (std::size_t i = 0; i < w.facts.size(); ++i) entries.push_back(static_cast<int>(i));
  for (std::size_t i = entries.size(); i > 1; --i)
    std::swap(entries[i - 1], entries[static_cast<std::size_t>(luck.below(static_cast<int>(i)))]);
  if (luck.chance(40)) std::sort(entries.begin(), entries.end());
  std::map<Day, std::vector<int>> of_day;
  for (std::size_t i = 0; i < w.facts.size(); ++i) of_day[w.facts[i].on.first].push_back(entries[i]);
  for (auto& [day, list] : of_day) std::sort(list.begin(), list.end());
  std::map<Day, std::size_t> next;
  for (Fact& f : w.facts) f.entry = of_day[f.on.first][next[f.on.first]++];

  if (options.strikes && luck.chance(40) && !w.facts.empty()) {
    const int strikes = luck.between(1, 3);
    int entry = static_cast<int>(w.facts.size());
    std::set<int> taken;
    for (int i = 0; i < strikes; ++i) {
      const auto which = static_cast<std::size_t>(luck.below(static_cast<int>(w.facts.size())));
      const Fact target = w.facts[which];
      if (taken.count(target.entry) != 0) continue;
      // Without a meter change, or without a value that rolled over, others would no longer fit.
      if (target.kind == FactKind::meter_change) continue;
      if (target.kind != FactKind::strike) {
        bool rolls = false;
        for (const Machine& m : w.machines)
          if (m.name == target.machine)
            for (const Meter& meter : meters_of(w, m)) rolls = rolls || meter.rolls_over_at.has_value();
        if (rolls && target.at && target.kind != FactKind::put_off) continue;
      }
      taken.insert(target.entry);
      Fact f;
      f.kind = FactKind::strike;
      f.entry = entry++;
      f.strikes = target.entry;
      f.note = "wrong";
      w.facts.push_back(f);
      if (luck.chance(30)) {
        Fact again;
        again.kind = FactKind::strike;
        again.entry = entry++;
        again.strikes = f.entry;
        again.note = "was right";
        taken.insert(f.entry);
        w.facts.push_back(again);
      }
    }
  }
  std::sort(w.facts.begin(), w.facts.end(), [](const Fact& a, const Fact& b) { return a.entry < b.entry; });
  const int move = luck.below(4);
  if (move == 1 || move == 3) move_to_a_due_day(luck, w);
  if (move == 2 || move == 3) add_a_telling_reading(luck, w);
  return w;
}

// ---- are the facts of a world valid? ----------------------------------------------------------------------------

namespace {

std::string complain(const Fact& f, const std::string& what) {
  return "entry " + std::to_string(f.entry) + " on " + iso(f.on.first) + ": " + what;
}

const Task* task_named(const Schedule& schedule, const std::string& name) {
  for (const Task& t : schedule.tasks)
    if (t.name == name) return &t;
  return nullptr;
}

bool ring(const Schedule& schedule, const Task& from, const std::string& wanted, int depth) {
  if (depth > 20) return true;
  for (const std::string& c : from.covers) {
    if (c == wanted) return true;
    const Task* t = task_named(schedule, c);
    if (t != nullptr && ring(schedule, *t, wanted, depth + 1)) return true;
  }
  return false;
}

}  // namespace

std::string problem(const World& world) {
  for (const Schedule& s : world.schedules)
    for (const Task& t : s.tasks) {
      if (t.every.empty()) return t.name + " has no limbs";
      if (ring(s, t, t.name, 0)) return t.name + " covers itself in a ring";
      for (const std::string& c : t.covers)
        if (task_named(s, c) == nullptr) return t.name + " covers what is not there";
      for (const Limb& l : t.every)
        if (l.kind == Kind::changes && (l.name == t.name || task_named(s, l.name) == nullptr))
          return t.name + " counts changes of itself or of nothing";
    }

  std::set<int> entries;
  for (const Fact& f : world.facts) {
    if (!entries.insert(f.entry).second) return complain(f, "entry number used twice");
    if (f.kind == FactKind::strike) {
      bool found = false;
      for (const Fact& g : world.facts) found = found || (g.entry == *f.strikes && g.entry < f.entry);
      if (!found) return complain(f, "strikes nothing that was entered before");
    }
    for (const Fact& g : world.facts)
      if (g.entry < f.entry && f.kind != FactKind::strike && same_row(f, g)) return complain(f, "repeats a row");
  }

  std::vector<const Fact*> sorted;
  for (const Fact& f : world.facts)
    if (f.kind != FactKind::strike) sorted.push_back(&f);
  std::sort(sorted.begin(), sorted.end(), [](const Fact* a, const Fact* b) {
    return a->on.first != b->on.first ? a->on.first < b->on.first : a->entry < b->entry;
  });

  for (const Machine& m : world.machines) {
    const Schedule& schedule = *schedule_of(world, m);
    const std::vector<Meter> meters = meters_of(world, m);
    struct Seen {
      Day read_on;
      Amount shown;
      Amount since_read;
    };
    std::map<std::string, Seen> seen;
    std::optional<Day> start;
    if (m.in_service) start = m.in_service->on;
    if (m.bought) start = m.bought->on;
    std::set<std::string> done;
    bool started = false;

    // The hours are counted from the last value that was read: a meter change that stands for a roll-over lies on
    // the day of the reading after it, but the meter rolled over some day before.
    const auto value = [&](const Fact& f, const Meter& meter, Amount shown) -> std::string {
      const auto it = seen.find(meter.name);
      Seen now{f.on.first, shown, 0};
      if (it != seen.end()) {
        if (shown < it->second.shown) return complain(f, "the meter went back");
        now.since_read = it->second.since_read + shown - it->second.shown;
        const Amount most = 24 * hundred * (f.on.first - it->second.read_on + 1);
        if (meter.unit == "h" && now.since_read > most) return complain(f, "more hours than a day has");
      }
      if (f.kind == FactKind::meter_change && it != seen.end()) {
        now.read_on = it->second.read_on;
        now.shown = *f.first;
      } else {
        if (f.kind == FactKind::meter_change) now.shown = *f.first;
        now.since_read = 0;
      }
      seen[meter.name] = now;
      return {};
    };
    for (const Fact* p : sorted) {
      const Fact& f = *p;
      if (f.machine != m.name) continue;
      if (start && !started && f.on.first >= *start) {
        // What was known before the start must fit it too.
        Fact at_start;
        at_start.on = {*start, *start};
        at_start.entry = -1;
        const Amount at = m.in_service ? m.in_service->at : m.bought->at;
        const std::string wrong = value(at_start, meters.front(), at);
        if (!wrong.empty()) return wrong;
        if (m.in_service)
          for (const Meter& meter : meters)
            if (meter.name != meters.front().name) seen[meter.name] = {*start, 0, 0};
        started = true;
      }
      if (m.in_service && f.on.first < m.in_service->on) return complain(f, "before the in-service day");
      if (m.bought && f.on.first < m.bought->on && f.kind != FactKind::service)
        return complain(f, "before it was bought");
      if (m.left && f.on.last >= *m.left) return complain(f, "after it left");
      if (!f.on.whole() && f.kind != FactKind::service) return complain(f, "needs a whole date");

      if (!f.note.empty() &&
          (f.kind == FactKind::reading || f.kind == FactKind::measurement || f.kind == FactKind::meter_change))
        return complain(f, "has no place for a note");

      const std::string name = f.meter.empty() ? meters.front().name : f.meter;
      const Meter* meter = nullptr;
      for (const Meter& x : meters)
        if (x.name == name) meter = &x;
      if (meter == nullptr) return complain(f, "no such meter");

      if ((f.kind == FactKind::reading || (f.kind == FactKind::service && f.at)) && f.on.whole()) {
        if (!f.at) return complain(f, "a reading without a value");
        if (meter->rolls_over_at && *f.at >= *meter->rolls_over_at) return complain(f, "beyond its last number");
        const std::string wrong = value(f, *meter, *f.at);
        if (!wrong.empty()) return wrong;
      }
      if (f.kind == FactKind::meter_change) {
        const std::string wrong = value(f, *meter, *f.last);
        if (!wrong.empty()) return wrong;
      }
      if (f.kind == FactKind::service || f.kind == FactKind::put_off) {
        const std::string parent = f.task.substr(0, f.task.find('/'));
        const Task* t = task_named(schedule, parent);
        if (t == nullptr) return complain(f, "no such task");
        if (parent != f.task) {
          const std::string check = f.task.substr(parent.size() + 1);
          bool found = false;
          for (const FollowUp& u : t->follow_ups) found = found || u.name == check;
          if (!found) return complain(f, "no such check");
          if (done.count(parent) == 0) return complain(f, "a check of what was not done");
        }
        if (!f.position.empty() &&
            std::find(t->positions.begin(), t->positions.end(), f.position) == t->positions.end())
          return complain(f, "no such position");
        if (f.kind == FactKind::service) {
          if (t->competent_person && f.by.empty()) return complain(f, "needs to say by whom");
          for (const std::string& d : done_with(schedule, f.task)) done.insert(d);
        } else {
          if (t->safety) return complain(f, "safety work is not put off");
          if (!f.until && !f.at) return complain(f, "put off until when?");
          if (f.until && *f.until <= f.on.first) return complain(f, "put off until a day that is past");
        }
      }
    }
  }
  return {};
}

// ---- what a world uses ------------------------------------------------------------------------------------------

namespace {

using Uses = std::function<bool(const World&)>;

bool any_task(const World& w, const std::function<bool(const Task&)>& test) {
  for (const Schedule& s : w.schedules)
    for (const Task& t : s.tasks)
      if (test(t)) return true;
  return false;
}

bool any_limb(const World& w, const std::function<bool(const Limb&)>& test) {
  return any_task(w, [&](const Task& t) { return std::any_of(t.every.begin(), t.every.end(), test); });
}

bool any_fact(const World& w, const std::function<bool(const Fact&)>& test) {
  return std::any_of(w.facts.begin(), w.facts.end(), test);
}

bool any_machine(const World& w, const std::function<bool(const Machine&)>& test) {
  return std::any_of(w.machines.begin(), w.machines.end(), test);
}

const std::vector<std::pair<std::string, Uses>>& all_uses() {
  static const std::vector<std::pair<std::string, Uses>> list = [] {
    std::vector<std::pair<std::string, Uses>> l;
    const auto limb_kind = [](Kind k) {
      return [k](const World& w) { return any_limb(w, [k](const Limb& x) { return x.kind == k; }); };
    };
    const auto unit = [](Unit u) {
      return [u](const World& w) {
        return any_limb(w, [u](const Limb& x) { return x.kind == Kind::calendar && x.unit == u; });
      };
    };
    const auto fact = [](FactKind k) {
      return [k](const World& w) { return any_fact(w, [k](const Fact& f) { return f.kind == k; }); };
    };
    const auto counts = [](CountsFrom c) {
      return [c](const World& w) { return any_task(w, [c](const Task& t) { return t.counts_from == c; }); };
    };
    l.emplace_back("usage limb", limb_kind(Kind::usage));
    l.emplace_back("usage limb on a named meter", [](const World& w) {
      return any_limb(w, [](const Limb& x) { return x.kind == Kind::usage && !x.meter.empty(); });
    });
    l.emplace_back("changes limb", limb_kind(Kind::changes));
    l.emplace_back("measured limb", limb_kind(Kind::measured));
    l.emplace_back("sign limb", limb_kind(Kind::sign));
    l.emplace_back("season limb", limb_kind(Kind::season));
    l.emplace_back("days", unit(Unit::days));
    l.emplace_back("weeks", unit(Unit::weeks));
    l.emplace_back("months", unit(Unit::months));
    l.emplace_back("years", unit(Unit::years));
    l.emplace_back("season over New Year", [](const World& w) {
      return any_limb(w, [&](const Limb& x) {
        if (x.kind != Kind::season) return false;
        return std::any_of(w.seasons.begin(), w.seasons.end(),
                           [&](const Season& s) { return s.name == x.name && s.to_month < s.from_month; });
      });
    });
    l.emplace_back("counts from done", counts(CountsFrom::done));
    l.emplace_back("counts from due", counts(CountsFrom::due));
    l.emplace_back("counts from the earlier", counts(CountsFrom::earlier));
    l.emplace_back("first", [](const World& w) { return any_task(w, [](const Task& t) { return !t.first.empty(); }); });
    l.emplace_back("in a condition",
                   [](const World& w) { return any_task(w, [](const Task& t) { return !t.in.empty(); }); });
    l.emplace_back("two matching conditions", [](const World& w) {
      return any_machine(w, [](const Machine& m) { return m.conditions.size() > 1; }) &&
             any_task(w, [](const Task& t) { return t.in.size() > 1; });
    });
    l.emplace_back("change of a machine",
                   [](const World& w) { return any_machine(w, [](const Machine& m) { return !m.changes.empty(); }); });
    l.emplace_back("change with first", [](const World& w) {
      return any_machine(w, [](const Machine& m) {
        return std::any_of(m.changes.begin(), m.changes.end(), [](const Change& c) { return !c.first.empty(); });
      });
    });
    l.emplace_back("grace in percent", [](const World& w) {
      return any_task(w, [](const Task& t) { return t.grace && t.grace->percent; });
    });
    l.emplace_back("grace by unit", [](const World& w) {
      return any_task(w, [](const Task& t) { return t.grace && !t.grace->percent; });
    });
    l.emplace_back("grace of the fleet", [](const World& w) { return w.grace.has_value(); });
    l.emplace_back("safety", [](const World& w) { return any_task(w, [](const Task& t) { return t.safety; }); });
    l.emplace_back("until the month's end",
                   [](const World& w) { return any_task(w, [](const Task& t) { return t.until_month_end; }); });
    l.emplace_back("competent person",
                   [](const World& w) { return any_task(w, [](const Task& t) { return t.competent_person; }); });
    l.emplace_back("covers",
                   [](const World& w) { return any_task(w, [](const Task& t) { return !t.covers.empty(); }); });
    l.emplace_back("covers through covers", [](const World& w) {
      for (const Schedule& s : w.schedules)
        for (const Task& t : s.tasks)
          for (const std::string& c : t.covers)
            for (const Task& u : s.tasks)
              if (u.name == c && !u.covers.empty()) return true;
      return false;
    });
    l.emplace_back("positions",
                   [](const World& w) { return any_task(w, [](const Task& t) { return !t.positions.empty(); }); });
    l.emplace_back("follow-up",
                   [](const World& w) { return any_task(w, [](const Task& t) { return !t.follow_ups.empty(); }); });
    l.emplace_back("follow-up checked", [](const World& w) {
      return any_fact(
          w, [](const Fact& f) { return f.kind == FactKind::service && f.task.find('/') != std::string::npos; });
    });
    l.emplace_back("new machine", [](const World& w) {
      return any_machine(w, [](const Machine& m) { return m.in_service.has_value(); });
    });
    l.emplace_back("delivery hours", [](const World& w) {
      return any_machine(w, [](const Machine& m) { return m.in_service && m.in_service->at > 0; });
    });
    l.emplace_back("bought machine", [](const World& w) {
      return any_machine(w, [](const Machine& m) { return m.bought.has_value(); });
    });
    l.emplace_back("machine with neither", [](const World& w) {
      return any_machine(w, [](const Machine& m) { return !m.bought && !m.in_service; });
    });
    l.emplace_back("left",
                   [](const World& w) { return any_machine(w, [](const Machine& m) { return m.left.has_value(); }); });
    l.emplace_back("several meters", [](const World& w) {
      return any_machine(w, [&](const Machine& m) { return meters_of(w, m).size() > 1; });
    });
    l.emplace_back("reading", fact(FactKind::reading));
    l.emplace_back("sign", fact(FactKind::sign));
    l.emplace_back("measurement", fact(FactKind::measurement));
    l.emplace_back("meter change", fact(FactKind::meter_change));
    l.emplace_back("roll-over", [](const World& w) { return any_fact(w, [](const Fact& f) { return f.implied; }); });
    l.emplace_back("put off", fact(FactKind::put_off));
    l.emplace_back("put off until a day and a value", [](const World& w) {
      return any_fact(w, [](const Fact& f) { return f.kind == FactKind::put_off && f.until && f.at; });
    });
    l.emplace_back("laid up", fact(FactKind::laid_up));
    l.emplace_back("out of use", fact(FactKind::out_of_use));
    l.emplace_back("back", fact(FactKind::back));
    l.emplace_back("strike", fact(FactKind::strike));
    l.emplace_back("strike of a strike", [](const World& w) {
      return any_fact(w, [&](const Fact& f) {
        return f.kind == FactKind::strike &&
               any_fact(w, [&](const Fact& g) { return g.kind == FactKind::strike && g.entry == *f.strikes; });
      });
    });
    l.emplace_back("service with a value", [](const World& w) {
      return any_fact(w, [](const Fact& f) { return f.kind == FactKind::service && f.at && f.on.whole(); });
    });
    l.emplace_back("service without a value", [](const World& w) {
      return any_fact(w, [](const Fact& f) { return f.kind == FactKind::service && !f.at && f.on.whole(); });
    });
    l.emplace_back("partial date",
                   [](const World& w) { return any_fact(w, [](const Fact& f) { return !f.on.whole(); }); });
    l.emplace_back("partial date with a value",
                   [](const World& w) { return any_fact(w, [](const Fact& f) { return !f.on.whole() && f.at; }); });
    l.emplace_back("service before it was bought", [](const World& w) {
      return any_fact(w, [&](const Fact& f) {
        return any_machine(w, [&](const Machine& m) {
          return m.name == f.machine && m.bought && f.kind == FactKind::service && f.on.first < m.bought->on;
        });
      });
    });
    l.emplace_back("fact after the as-of day", [](const World& w) {
      return any_fact(w, [&](const Fact& f) { return f.kind != FactKind::strike && f.on.first > w.as_of; });
    });
    l.emplace_back("entered out of the order of days", [](const World& w) {
      return any_fact(w, [&](const Fact& f) {
        return any_fact(w, [&](const Fact& g) {
          return f.kind != FactKind::strike && g.kind != FactKind::strike && f.entry < g.entry &&
                 f.on.first > g.on.first;
        });
      });
    });
    l.emplace_back("as of a 29 February", [](const World& w) {
      const Civil c = civil_of(w.as_of);
      return c.month == 2 && c.day == 29;
    });
    l.emplace_back("as of a day before the machine was there", [](const World& w) {
      return any_machine(w, [&](const Machine& m) {
        return (m.in_service && w.as_of < m.in_service->on) || (m.bought && w.as_of < m.bought->on);
      });
    });
    l.emplace_back("two machines", [](const World& w) { return w.machines.size() > 1; });
    return l;
  }();
  return list;
}

}  // namespace

std::vector<std::string> features(const World& world) {
  std::vector<std::string> names;
  for (const auto& [name, uses] : all_uses())
    if (uses(world)) names.push_back(name);
  return names;
}

std::vector<std::string> all_features() {
  std::vector<std::string> names;
  for (const auto& [name, uses] : all_uses()) names.push_back(name);
  return names;
}

}  // namespace twin
