#include "planned.h"

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

namespace twin {

Planned plan(FactKind kind, const std::string& machine, Day day) {
  Planned p;
  p.fact.kind = kind;
  p.fact.machine = machine;
  p.fact.on = {day, day};
  return p;
}

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
         a.by == b.by && a.note == b.note && a.found_failed == b.found_failed && a.found_worn == b.found_worn &&
         a.strikes == b.strikes;
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

}  // namespace twin
