#include "service/shared_machines.h"

#include <algorithm>

namespace service {
namespace {

std::vector<const Machine*> machines_at(const Week& week, const Round& round) {
  std::vector<const Machine*> machines;
  for (const RoundStop& stop : round.stops) {
    const Machine* machine = week.visits[stop.visit].machine;
    if (machine != nullptr && std::find(machines.begin(), machines.end(), machine) == machines.end()) {
      machines.push_back(machine);
    }
  }
  return machines;
}

}  // namespace

std::vector<SharedMachine> shared_machines(const RoundsPlan& plan, const Round& round) {
  const CrewDay& day = plan.week.crew_days[round.crew_day];
  std::vector<SharedMachine> shared;
  for (const Machine* machine : machines_at(plan.week, round)) {
    SharedMachine one{machine, {}};
    for (const Round& other : plan.rounds) {
      const CrewDay& of = plan.week.crew_days[other.crew_day];
      const auto there = machines_at(plan.week, other);
      if (of.on == day.on && of.crew != day.crew && std::find(there.begin(), there.end(), machine) != there.end()) {
        one.others.push_back(of.crew);
      }
    }
    std::sort(one.others.begin(), one.others.end());  // they stand in the order of the fleet file
    if (!one.others.empty()) shared.push_back(std::move(one));
  }
  return shared;
}

}  // namespace service
