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

// Whether no plan can make a visit (`Visit::impossible`). One that is unreachable alone may be made behind another one
// at its site, which has done the setting up.
bool never_made(const Week& week, std::size_t visit);

// Of the visits that a plan can make.
WeekProblem problem_of(const Week& week);

// Of these alone, whatever was said of them.
WeekProblem problem_of(const Week& week, std::vector<std::size_t> visits);

}  // namespace service::visits
