// The first value of a meter: nothing of its own tells whether it can be right, so the machines of its kind are asked.
#pragma once

#include <vector>

#include "service/entry.h"

namespace service {

// Of the meters of which an added fact shows the first value known, in the order of machines and meters.
std::vector<HighFirstValue> high_first_values(const Entered& entered);

}  // namespace service
