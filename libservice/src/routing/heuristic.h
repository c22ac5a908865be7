// A good plan soon: jobs are put where they cost least, and then parts of the plan are ruined and made anew many times.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>

#include "routing/problem.h"
#include "routing/weights.h"

namespace service::routing {

// Ruin and recreate after Christiaens and Vanden Berghe 2020 ("Slack induction by string removals for vehicle routing
// problems"): strings of stops near each other are taken out of several rounds, and put back with a few places passed
// over, under simulated annealing.
struct Search {
  std::size_t steps = 0;
  std::uint64_t seed = 0;
  bool cool = false;  // from a good plan, of which not much may be lost on the way
  std::function<bool()> stop = {};
};
Plan search(const Problem& problem, const Weights& weights, const Plan& from, const Search& how);

}  // namespace service::routing
