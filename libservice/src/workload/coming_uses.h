// What the services to come take, each on its own day.
#pragma once

#include <vector>

#include "workload/needs.h"
#include "workload/outlooks.h"

namespace service::load {

// Of the machines of the snapshot's scope from as-of to a day, inclusive: services that may have come by then.
std::vector<Use> coming_uses(const Snapshot& snapshot, Day to, const Forecaster& forecaster, const Progress& progress,
                             const Unsaid& unsaid);

}  // namespace service::load
