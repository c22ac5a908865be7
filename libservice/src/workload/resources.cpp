#include <algorithm>

#include "service/workload.h"

namespace service {

Resources resources_of(const Machine& machine, const Task& task, const FollowUp* check) {
  Resources resources;
  if (check != nullptr) {
    resources.time = check->takes;
    return resources;
  }
  resources.time = task.takes;
  resources.people = task.people;
  resources.parts = task.parts;
  resources.fluids = task.fluids;
  const auto change = std::find_if(machine.change.begin(), machine.change.end(),
                                   [&](const TaskChange& each) { return each.task == task.name; });
  if (change == machine.change.end()) return resources;
  if (change->takes) resources.time = change->takes;
  if (change->parts) resources.parts = *change->parts;
  if (change->fluids) resources.fluids = *change->fluids;
  return resources;
}

}  // namespace service
