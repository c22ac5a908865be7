// Random worlds moved to where the mistakes are.
#include <algorithm>
#include <cstdlib>

#include "limbs.h"
#include "planned.h"
#include "random_worlds.h"

namespace twin {

namespace {

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

}  // namespace

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

}  // namespace twin
