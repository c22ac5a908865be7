#include <algorithm>

#include "service/workload.h"

namespace service {

Takings takings_of(const Machine& machine, const Task& task, const FollowUp* check) {
  Takings takings;
  if (check != nullptr) {
    takings.time = check->takes;
    return takings;
  }
  takings.time = task.takes;
  takings.people = task.people;
  takings.parts = task.parts;
  takings.fluids = task.fluids;
  const auto change = std::find_if(machine.change.begin(), machine.change.end(),
                                   [&](const TaskChange& each) { return each.task == task.name; });
  if (change == machine.change.end()) return takings;
  if (change->takes) takings.time = change->takes;
  if (change->parts) takings.parts = *change->parts;
  if (change->fluids) takings.fluids = *change->fluids;
  return takings;
}

}  // namespace service
