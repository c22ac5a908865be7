#include "service/not_to_run.h"

#include <algorithm>
#include <map>
#include <string_view>

namespace service {

bool RunBan::forbidden_by(const Point& point) const {
  return std::find(points.begin(), points.end(), &point) != points.end();
}

std::vector<RunBan> run_bans(const DueList& list) {
  std::map<const Machine*, RunBan> by_machine;
  std::map<std::string_view, const UseState*> states;
  for (const MachineUse& use : list.not_in_use) {
    states.emplace(use.machine->key, &use.state);
    if (use.state.kind == UseKind::out_of_use) by_machine[use.machine];
  }
  for (const Point& point : list.points) {
    if (forbids_running(point)) by_machine[point.machine].points.push_back(&point);
  }
  for (const SeenSign& seen : list.seen) {
    if (forbids_running(seen)) by_machine[seen.machine].seen.push_back(&seen);
  }
  std::vector<RunBan> all;
  for (const Machine& machine : list.fleet->machines) {
    const auto found = by_machine.find(&machine);
    if (found == by_machine.end()) continue;
    found->second.machine = &machine;
    const auto state = states.find(machine.key);
    found->second.state = state == states.end() ? nullptr : state->second;
    all.push_back(std::move(found->second));
  }
  std::stable_partition(all.begin(), all.end(), [](const RunBan& ban) { return ban.out_of_use(); });
  return all;
}

NotToRun::NotToRun(const DueList& list, const Site* site) {
  for (const RunBan& ban : run_bans(list)) {
    if (site == nullptr || ban.machine->site == site->key) machines_.push_back(ban.machine);
  }
  held_.insert(machines_.begin(), machines_.end());
}

bool NotToRun::holds(const Machine& machine) const { return held_.contains(&machine); }

}  // namespace service
