// From limbs to one service point: what is fitted, the race of limbs, what is unknown, what was put off.
#pragma once

#include <vector>

#include "service/due_list.h"
#include "standing/view.h"

namespace service {

// Whether all of them are told, kept or not; else whoever keeps one has the rest told of it.
inline bool tells_every_point(const DueAsk& ask) { return ask.keep == Keep::all || ask.each; }

std::vector<Point> points_of(const MachineView& view, const DueAsk& ask);

// What decides nothing, and is told of points that are shown: today's use by estimate, and whether the point rests on
// readings that are doubtful.
void tell_the_rest(Point& point, const MachineView& view);

}  // namespace service
