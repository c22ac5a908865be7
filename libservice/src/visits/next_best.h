// What else could have been done with a visit that is not made.
#pragma once

#include <optional>

#include "routing/problem.h"
#include "visits/problem_of.h"

namespace service::visits {

// The crew-day into which a job would go at the least cost beside all others; where there is none, that where it takes
// the place of the fewest that follow each other, and of these the cheapest. What is promised is not pushed out, nor
// what is for safety by what is not. None where nothing helps.
std::optional<NextBest> next_best_of(const WeekProblem& of, const routing::Plan& plan, int job);

}  // namespace service::visits
