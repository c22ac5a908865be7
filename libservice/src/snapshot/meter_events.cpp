// The life of one meter, step by step. The judge and the arithmetic of usage read the same steps.
#include <algorithm>

#include "service/snapshot.h"
#include "snapshot/judge_meters.h"

namespace service {
namespace {

// What the fleet file itself says of the meter. New: the first meter at its delivery hours, the others at zero.
// Bought: the first meter's value on that day; nothing of the others.
std::optional<MeterEvent> start_of(const Machine& machine, const Meter& meter) {
  const bool first = machine.first_meter()->name == meter.name;
  switch (machine.start.kind) {
    case StartKind::in_service:
      return MeterEvent{nullptr, machine.start.on.first, first ? machine.start.at.value_or(Amount{}) : Amount{}, {}};
    case StartKind::bought:
      if (!first || !machine.start.at) return std::nullopt;
      return MeterEvent{nullptr, machine.start.on.first, *machine.start.at, {}};
    case StartKind::unknown:
      break;
  }
  return std::nullopt;
}

const Fact& fact_in(const Fact& fact) { return fact; }
const Fact& fact_in(const Fact* fact) { return *fact; }

template <class Facts>
std::vector<MeterEvent> events_of(const Machine& machine, const Meter& meter, const Facts& facts) {
  std::vector<MeterEvent> events;
  auto start = start_of(machine, meter);
  const auto place_start = [&](Day before) {
    if (!start || start->day > before) return;
    events.push_back(*start);
    start.reset();
  };
  for (const auto& each : facts) {
    const Fact& fact = fact_in(each);
    if (!shown_by(fact, machine, meter)) continue;
    const Day day = fact.on.first;
    if (fact.kind == FactKind::meter_change && fact.last && fact.first) {
      const bool known = std::any_of(events.begin(), events.end(), [&](const MeterEvent& event) {
        return event.fresh && event.day == day && event.shown == *fact.last && *event.fresh == *fact.first;
      });
      if (known) continue;  // two copies of the record both wrote it down
      place_start(day);
      events.push_back({&fact, day, *fact.last, fact.first});
    } else if ((fact.kind == FactKind::reading || fact.kind == FactKind::service) && fact.at && fact.on.whole_day()) {
      place_start(day);
      events.push_back({&fact, day, *fact.at, {}});
    }
  }
  if (start) events.push_back(*start);
  return events;
}

}  // namespace

bool shown_by(const Fact& fact, const Machine& machine, const Meter& meter) {
  if (!fact.meter.empty()) return fact.meter == meter.name;
  return machine.first_meter() != nullptr && machine.first_meter()->name == meter.name;
}

std::vector<MeterEvent> meter_events(const Machine& machine, const Meter& meter, std::span<const Fact> facts) {
  return events_of(machine, meter, facts);
}

std::vector<MeterEvent> meter_events(const Machine& machine, const Meter& meter, const FactPointers& facts) {
  return events_of(machine, meter, facts);
}

}  // namespace service
