// The positions at which a task of a machine is done, by the name that a service or its check has.
#pragma once

#include <string>
#include <vector>

#include "service/snapshot.h"

namespace service::entry {

// Of a task that the machine has; of a check, `brakes/re-torque`, those of its service.
inline std::vector<std::string> positions_of(const Fleet& fleet, const Machine& machine, const std::string& task) {
  return task_of(fleet, machine, task.substr(0, task.find('/')))->positions;
}

}  // namespace service::entry
