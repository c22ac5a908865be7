// Rounds with all their times and figures, from the order of their visits.
#pragma once

#include <optional>
#include <vector>

#include "service/rounds.h"
#include "visits/problem_of.h"

namespace service::visits {

// None where the visits cannot be made in that order. `route`: jobs of the problem, not empty.
std::optional<Round> round_of(const Week& week, const WeekProblem& of, std::size_t crew_day,
                              const routing::Route& route);

// What a round has to load, beside what its crew carries; and the cautions of its work.
void fill_load(const Week& week, Round& round);

}  // namespace service::visits
