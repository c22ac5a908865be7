// What somebody saw of a machine and no task comes due on, until it is answered.
#pragma once

#include <vector>

#include "service/due_list.h"
#include "standing/view.h"

namespace service {

std::vector<SeenSign> seen_of(const MachineView& view);

}  // namespace service
