// From limbs to one service point: what is fitted, the race of limbs, what is unknown, what was put off.
#pragma once

#include <vector>

#include "service/due_list.h"
#include "standing/view.h"

namespace service {

std::vector<Point> points_of(const MachineView& view, const DueAsk& ask);

}  // namespace service
