// By which meters a task comes due.
#pragma once

#include <set>
#include <string>

#include "service/fleet.h"

namespace service {

// The meters of a task's usage limbs, or of a check's (`task/check`). Empty where it counts no use, or is not there.
std::set<std::string> meters_counted(const Fleet& fleet, const Machine& machine, const std::string& task);

}  // namespace service
