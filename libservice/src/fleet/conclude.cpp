#include "fleet/conclude.h"

#include "fleet/all_cautions.h"
#include "fleet/index.h"
#include "fleet/travel_table.h"

namespace service::fleet {
namespace {

void check_whole(Draft& draft, Diagnostics& diagnostics, const Spot& main) {
  check_machines(draft, diagnostics);
  check_names(draft, diagnostics);
  check_meters(draft, diagnostics);
  check_covers(draft, diagnostics);
  check_carried(draft, diagnostics);
  if (draft.machines.empty() && !draft.unsure_of(Noun::machine)) {
    diagnostics.error(code::no_machines, main, "the fleet lists no machines",
                      "add them under `machines:`, or as rows of register.csv");
  }
  remark_on(draft, diagnostics);
}

Fleet put_together(Draft draft) {
  Fleet fleet = std::move(draft.fleet);
  for (ScheduleDraft& schedule : draft.schedules) {
    for (TaskDraft& task : schedule.tasks) schedule.schedule.tasks.push_back(std::move(task.task));
    for (Task& task : schedule.schedule.tasks) task.all_cautions = cautions_carried(schedule.schedule, task);
    fleet.schedules.push_back(std::move(schedule.schedule));
  }
  if (fleet.travel) put_in_order(*fleet.travel);
  make_index(fleet);  // of the schedules, which the machines look up
  fleet.machines.reserve(draft.machines.size());
  for (MachineDraft& machine : draft.machines) {
    if (!machine.own_meters) machine.machine.meters = fleet.schedule_of(machine.machine).meters;
    for (ChangeDraft& change : machine.changes) machine.machine.change.push_back(std::move(change.change));
    fleet.machines.push_back(std::move(machine.machine));
  }
  make_index(fleet);
  return fleet;
}

}  // namespace

Fleet conclude(Draft draft, Diagnostics& diagnostics, const Spot& main) {
  check_whole(draft, diagnostics, main);
  auto errors = diagnostics.errors();
  if (!errors.empty()) throw Failure(FailureKind::bad_fleet, std::move(errors));
  Fleet fleet = put_together(std::move(draft));
  fleet.remarks = diagnostics.remarks();
  return fleet;
}

}  // namespace service::fleet
