// Measured values at their limits that a service ends without anybody having said so.
#include <algorithm>
#include <optional>

#include "service/entry.h"

namespace service {
namespace {

const Fact* fact_by_id(std::span<const Fact> facts, const FactId& id) {
  const auto found = std::find_if(facts.begin(), facts.end(), [&](const Fact& fact) { return fact.id == id; });
  return found == facts.end() ? nullptr : &*found;
}

// The last of the added services of a point that lies behind the measurement.
const Fact* service_behind(const Entered& entered, const Point& point, const Fact& measured) {
  const auto names = counted_as(entered.before->fleet->schedule_of(*point.machine), point.name);
  const Fact* last = nullptr;
  for (const Fact& fact : entered.added) {
    const bool of_point = fact.kind == FactKind::service && fact.machine == point.machine->key &&
                          (fact.position.empty() || point.position.empty() || fact.position == point.position) &&
                          std::find(names.begin(), names.end(), fact.task) != names.end();
    if (of_point && before(measured, fact) && (last == nullptr || before(*last, fact))) last = &fact;
  }
  return last;
}

// The last of the added values of the same that lies behind it and before the service; else it itself.
const Fact& last_before(const Entered& entered, const Point& point, const Fact& measured, const Fact& service) {
  const Fact* last = &measured;
  for (const Fact& fact : entered.added) {
    const bool same = fact.kind == FactKind::measurement && fact.machine == measured.machine &&
                      fact.name == measured.name && fact.unit == measured.unit &&
                      (fact.position.empty() || point.position.empty() || fact.position == point.position);
    if (same && before(*last, fact) && before(fact, service)) last = &fact;
  }
  return *last;
}

// How the limb stands afterwards; null where there is no such limb.
const LimbStanding* limb_after(const DueList& after, const Point& point, const LimbStanding& limb) {
  for (const Point& other : after.points) {
    if (other.machine->key != point.machine->key || other.name != point.name || other.position != point.position) {
      continue;
    }
    const auto same = std::find_if(other.limbs.begin(), other.limbs.end(), [&](const LimbStanding& each) {
      return each.kind == LimbKind::measured && each.name == limb.name;
    });
    return same == other.limbs.end() ? nullptr : &*same;
  }
  return nullptr;
}

bool minded(const Point& point, const LimbStanding& limb) {
  const auto& again = point.measure_again;
  return reached(limb) || std::find(again.begin(), again.end(), limb.name) != again.end();
}

// The value as it is to be written down where the service only looked at it.
Fact again_after(const Fact& measured, const Fact& service, const Fleet& fleet, const Machine& machine) {
  Fact again;
  again.kind = FactKind::measurement;
  again.machine = measured.machine;
  again.on = DaySpan(service.on.first);
  again.name = measured.name;
  again.value = measured.value;
  again.position = measured.position.empty() ? service.position : measured.position;
  for (const MeasuredName& name : measured_names(fleet, machine)) {
    if (name.name == measured.name && name.units.front() != measured.unit) again.unit = measured.unit;
  }
  return again;
}

}  // namespace

std::vector<EndedValue> ended_values(const Entered& entered) {
  std::vector<EndedValue> ended;
  if (entered.before == nullptr || entered.after == nullptr) return ended;
  for (const Point& point : entered.before->points) {
    for (const LimbStanding& limb : point.limbs) {
      if (limb.kind != LimbKind::measured || !limb.measured || !limb.fact || !minded(point, limb)) continue;
      const LimbStanding* const after = limb_after(*entered.after, point, limb);
      if (after != nullptr && after->measured) continue;
      const Fact* measured = fact_by_id(entered.was->facts_of(point.machine->key), *limb.fact);
      const Fact* const service = measured != nullptr ? service_behind(entered, point, *measured) : nullptr;
      if (service == nullptr) continue;
      measured = &last_before(entered, point, *measured, *service);
      const Measure& shown = *measured->value;
      const bool is_reached = shown == limb.limit || (limb.above ? shown > limb.limit : shown < limb.limit);
      EndedValue value{point.machine->key, point.name, {},         limb.name,          limb.unit,    shown,
                       limb.limit,         limb.above, is_reached, measured->on.first, measured->id, {}};
      value.again = again_after(*measured, *service, *entered.before->fleet, *point.machine);
      value.position = value.again.position;
      value.found_bad = found_bad(*service) && !renews(*point.machine, {point.task, nullptr});
      // A value of all positions that all of them lose is one.
      const bool told = std::any_of(ended.begin(), ended.end(), [&](const EndedValue& other) {
        return other.fact == value.fact && other.task == value.task && other.position == value.position;
      });
      if (!told) ended.push_back(std::move(value));
    }
  }
  return ended;
}

}  // namespace service
