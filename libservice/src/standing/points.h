// From limbs to one service point: what is fitted, the race of limbs, what is unknown, what was put off.
#pragma once

#include <vector>

#include "service/due_list.h"
#include "standing/view.h"

namespace service {

// Where not all of them are kept, whoever keeps one has the rest told of it.
std::vector<Point> points_of(const MachineView& view, const DueAsk& ask);

// What decides nothing, and is told of points that are shown: today's use by estimate, and whether the point rests on
// readings that are doubtful.
void tell_the_rest(Point& point, const MachineView& view);

}  // namespace service
