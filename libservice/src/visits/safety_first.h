// Work for safety goes in wherever it fits beside other work for safety and what was promised.
#pragma once

#include "routing/problem.h"

namespace service::visits {

// A search that is cut short may leave out such work that goes in if only what is neither gives way. In the plan that
// comes back none is left out so; what gave way is put back where there is room.
routing::Plan with_safety_first(const routing::Problem& problem, routing::Plan plan);

}  // namespace service::visits
