// A week as a problem of rounds: sites become places, visits jobs, crew-days shifts.
#pragma once

#include <cstddef>
#include <vector>

#include "routing/problem.h"
#include "service/rounds.h"

namespace service::visits {

struct WeekProblem {
  routing::Problem problem;
  std::vector<std::size_t> visits;  // of its jobs
};

// Of the visits that can be made (`Week::impossible`).
WeekProblem problem_of(const Week& week);

// Of these alone, whatever was said of them.
WeekProblem problem_of(const Week& week, std::vector<std::size_t> visits);

}  // namespace service::visits
