// Which jobs are near each other.
#pragma once

#include <vector>

#include "routing/problem.h"

namespace service::routing {

// For each job all jobs, itself among them, the cheapest to get to first.
std::vector<std::vector<int>> nearest_jobs(const Problem& problem);

}  // namespace service::routing
