#include "standing/shared_tasks.h"

namespace service {
namespace {

// Of a schedule; machines that hardly ever hold alike would be looked through for each of them.
constexpr std::size_t most_known = 16;

}  // namespace

std::shared_ptr<const std::vector<MachineTask>> SharedTasks::of(const Machine& machine) {
  const auto worked_out = [&] { return std::make_shared<const std::vector<MachineTask>>(tasks_of(fleet_, machine)); };
  if (!tasks_alike(machine, machine)) return worked_out();  // like no other
  std::vector<Known>& known = by_schedule_[machine.schedule];
  for (const Known& each : known) {
    if (tasks_alike(*each.machine, machine)) return each.tasks;
  }
  if (known.size() == most_known) return worked_out();
  return known.emplace_back(Known{&machine, worked_out()}).tasks;
}

}  // namespace service
