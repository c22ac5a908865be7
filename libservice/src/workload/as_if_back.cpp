#include "workload/as_if_back.h"

#include <limits>

namespace service::load {

Snapshot as_if_back(const Snapshot& snapshot, const Scope& machines) {
  Extract extract;
  extract.read = kin_of(snapshot.fleet(), machines);
  extract.newest = snapshot.newest_fact();
  for (const std::string& machine : *extract.read.machines) {
    const auto facts = snapshot.facts_of(machine);
    extract.facts.insert(extract.facts.end(), facts.begin(), facts.end());
  }
  Fact back;
  back.kind = FactKind::back;
  back.on = DaySpan(snapshot.as_of());
  back.entered = std::numeric_limits<std::int64_t>::max();  // after all that was said that day
  for (const std::string& machine : *machines.machines) {
    back.machine = machine;
    ++back.id.number;
    extract.facts.push_back(back);
  }
  return {snapshot.fleet_ptr(), std::move(extract), snapshot.as_of(), snapshot.day_is_given(), machines};
}

}  // namespace service::load
