// What facts, and today's estimate, decide of a point; and which limb is the earliest of those that are expected.
#pragma once

#include "service/standing.h"

namespace service {

// Fills standing, unknown and the estimate marks; of a point that is reached or due by estimate also ruled_by and
// due_on. What is not reached is `later`. Answers whether days can be expected of it: by estimate too, for its span.
bool decide_standing(Point& point);

// The worst limb of which something is known, by the days that its limbs have so far.
std::optional<std::size_t> ruling_limb(const Point& point);

}  // namespace service
