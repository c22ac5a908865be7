// A limb that counts another task's changes comes due when that task will have been done often enough.
#pragma once

#include <vector>

#include "service/standing.h"
#include "standing/view.h"

namespace service {

// Settles the race of all points of a machine: those of tasks that count changes after the tasks that they count.
void decide_all(std::vector<Point>& points, const MachineView& view, const DueAsk& ask);

}  // namespace service
