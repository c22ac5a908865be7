#include "workload/outlooks.h"

namespace service::load {

NotToRun not_to_run_of(const Snapshot& snapshot) {
  return NotToRun(due_list(snapshot, DueAsk{snapshot.as_of(), {}, Detail::standings}, straight_line()));
}

void each_outlook(const Snapshot& snapshot, const Forecaster& forecaster, const Progress& progress,
                  const Unsaid& unsaid, const std::function<void(const Machine&, const Outlook&)>& visit) {
  const auto& machines = snapshot.fleet().machines;
  unsaid.gaps = fleet_gaps(snapshot);
  for (std::size_t i = 0; i < machines.size(); ++i) {
    const Machine& machine = machines[i];
    if (progress) progress(i, machines.size());
    if (!snapshot.scope().holds(machine.key) || !kept_on(machine, snapshot.as_of())) continue;
    const Outlook outlook(snapshot, machine, forecaster);
    unsaid.gaps.insert(unsaid.gaps.end(), outlook.gaps().begin(), outlook.gaps().end());
    for (const std::size_t k : outlook.unknown()) {
      unsaid.unknown.push_back(name_of(outlook.today()[k]));
    }
    if (UseState state = use_state(snapshot, machine); state.kind != UseKind::in_use) {
      unsaid.not_in_use.push_back({&machine, std::move(state)});
    }
    if (!outlook.stands()) visit(machine, outlook);
  }
}

}  // namespace service::load
