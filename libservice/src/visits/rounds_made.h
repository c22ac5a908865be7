// Rounds with all their times and figures, from the order of their visits.
#pragma once

#include <optional>
#include <vector>

#include "service/rounds.h"
#include "visits/problem_of.h"

namespace service::visits {

// None where the visits cannot be made in that order; loads come later. `route`: jobs of the problem, not empty.
std::optional<Round> round_of(const Week& week, const WeekProblem& of, std::size_t crew_day,
                              const routing::Route& route);

// What each round has to load, beside what its crew carries and with what its round before used of that; and the
// cautions of its work. All rounds of the week, by day.
void fill_loads(const Week& week, std::vector<Round>& rounds);

}  // namespace service::visits
