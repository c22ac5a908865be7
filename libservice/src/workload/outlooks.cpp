#include "workload/outlooks.h"

namespace service::load {

void each_outlook(const Snapshot& snapshot, const Forecaster& forecaster, const Progress& progress,
                  const Unsaid& unsaid, const std::function<void(const Machine&, const Outlook&)>& visit) {
  const auto& machines = snapshot.fleet().machines;
  for (std::size_t i = 0; i < machines.size(); ++i) {
    const Machine& machine = machines[i];
    if (progress) progress(i, machines.size());
    if (!snapshot.scope().holds(machine.key) || !kept_on(machine, snapshot.as_of())) continue;
    const Outlook outlook(snapshot, machine, forecaster);
    for (const std::size_t k : outlook.unknown()) {
      const Point& point = outlook.today()[k];
      unsaid.unknown.emplace_back(&machine, label(point.name, point.position));
    }
    if (outlook.stands()) {
      unsaid.standing.push_back(&machine);
    } else {
      visit(machine, outlook);
    }
  }
}

std::string label(const std::string& name, const std::string& position) {
  return position.empty() ? name : name + '@' + position;
}

}  // namespace service::load
