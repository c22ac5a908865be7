// What is not known of a machine, so that an empty list is never taken for an all-clear.
#pragma once

#include <vector>

#include "service/due_list.h"
#include "standing/view.h"

namespace service {

std::vector<Gap> gaps_of(const MachineView& view, const std::vector<Point>& points);

}  // namespace service
