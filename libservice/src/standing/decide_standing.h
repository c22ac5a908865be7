// The race of limbs: the worst one rules, and its day is the point's.
#pragma once

#include "service/standing.h"

namespace service {

// Fills standing, ruled_by, due_on, unknown and the estimate marks from the limbs.
void decide_standing(Point& point, Day within);

}  // namespace service
