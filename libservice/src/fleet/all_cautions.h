#pragma once

#include <string>
#include <vector>

#include "service/fleet.h"

namespace service::fleet {

// The cautions of a task of this schedule, and those of all that it covers, each once: those of the catalogue in its
// order, then the schedule's own.
std::vector<std::string> cautions_carried(const Schedule& schedule, const Task& task);

}  // namespace service::fleet
