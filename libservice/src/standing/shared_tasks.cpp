#include "standing/shared_tasks.h"

namespace service {

std::shared_ptr<const std::vector<MachineTask>> SharedTasks::of(const Machine& machine) {
  const auto worked_out = [&] { return std::make_shared<const std::vector<MachineTask>>(tasks_of(fleet_, machine)); };
  if (!tasks_alike(machine, machine)) return worked_out();  // like no other
  std::vector<Known>& known = by_schedule_[machine.schedule];
  for (const Known& each : known) {
    if (tasks_alike(*each.machine, machine)) return each.tasks;
  }
  return known.emplace_back(Known{&machine, worked_out()}).tasks;
}

}  // namespace service
