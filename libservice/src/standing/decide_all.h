// The standing of every point of a machine, and the days that are expected: those of tasks that count another task's
// changes after the tasks that they count.
#pragma once

#include <vector>

#include "service/due_list.h"
#include "standing/view.h"

namespace service {

void decide_all(std::vector<Point>& points, const MachineView& view, const DueAsk& ask);

}  // namespace service
