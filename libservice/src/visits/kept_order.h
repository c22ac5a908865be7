// Rounds in the order of the plan that was kept, where another order gains nothing: who was told an hour keeps it.
#pragma once

#include "routing/problem.h"
#include "visits/problem_of.h"

namespace service::visits {

// The same visits on the same crew-days, at no greater cost.
routing::Plan with_kept_order(const Week& week, const WeekProblem& of, routing::Plan plan);

}  // namespace service::visits
