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
  const TaskChange* change = machine.change_to(task.name);
  if (change == nullptr) return resources;
  if (change->takes) resources.time = change->takes;
  if (change->parts) resources.parts = *change->parts;
  if (change->fluids) resources.fluids = *change->fluids;
  return resources;
}

}  // namespace service
