#include "service/not_to_run.h"

#include <algorithm>
#include <set>

#include "service/run_ban.h"

namespace service {

NotToRun::NotToRun(const DueList& list) {
  std::set<const Machine*> stopped;
  for (const MachineUse& use : list.not_in_use) {
    if (use.state.kind == UseKind::out_of_use) stopped.insert(use.machine);
  }
  for (const Point& point : list.points) {
    if (forbids_running(point)) stopped.insert(point.machine);
  }
  for (const SeenSign& seen : list.seen) {
    if (forbids_running(seen)) stopped.insert(seen.machine);
  }
  for (const Machine& machine : list.fleet->machines) {
    if (stopped.contains(&machine)) machines_.push_back(&machine);
  }
}

bool NotToRun::holds(const Machine& machine) const {
  return std::find(machines_.begin(), machines_.end(), &machine) != machines_.end();
}

}  // namespace service
