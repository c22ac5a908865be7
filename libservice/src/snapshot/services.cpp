// Which facts are a service of a point: said here, and nowhere else.
#include <algorithm>

#include "service/snapshot.h"

namespace service {
namespace {

template <class Counts>
std::vector<ServiceDay> by_day(std::span<const Fact> facts, std::string_view position, Counts counts) {
  std::vector<ServiceDay> days;
  for (const Fact& fact : facts) {  // in the one order, so days only rise
    if (fact.kind != FactKind::service || !counts(fact)) continue;
    if (!position.empty() && !fact.position.empty() && fact.position != position) continue;
    if (days.empty() || days.back().day() != fact.on.first) days.emplace_back();
    days.back().facts.push_back(&fact);
  }
  return days;
}

std::vector<ServiceDay> of_any(const std::vector<std::string>& tasks, std::span<const Fact> facts,
                               std::string_view position) {
  return by_day(facts, position,
                [&](const Fact& fact) { return std::find(tasks.begin(), tasks.end(), fact.task) != tasks.end(); });
}

}  // namespace

std::vector<ServiceDay> services_of(std::span<const Fact> facts, const Schedule& schedule, std::string_view task,
                                    std::string_view position) {
  return of_any(counted_as(schedule, task), facts, position);
}

std::vector<ServiceDay> services_of(std::span<const Fact> facts, const MachineTask& task, std::string_view position) {
  return of_any(task.served_by, facts, position);
}

std::vector<ServiceDay> checks_of(std::span<const Fact> facts, std::string_view check, std::string_view position) {
  return by_day(facts, position, [&](const Fact& fact) { return fact.task == check; });
}

}  // namespace service
