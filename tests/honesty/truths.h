// Simulated truths: how machines really run, day by day. None of them is the model that the forecast fits: use is made
// of working days, jobs, weather, visitors and breakdowns, not of a level times a profile.
#pragma once

#include <random>
#include <string>
#include <vector>

#include "honesty/trial.h"

namespace honesty {

struct Kind {
  std::string name;
  std::string what;  // how it runs, in a line
};

const std::vector<Kind>& kinds();

// Machines of one kind that share the weather, known to `far` days after the day on which they are asked about.
World simulated(const std::string& kind, int far, std::mt19937_64& random);

// The same world from the same random numbers, and in it `times` other ways in which each machine could have gone on
// from its day in `known_to`.
World simulated_otherwise(const std::string& kind, int far, std::mt19937_64& random, const std::vector<Day>& known_to,
                          int times);

}  // namespace honesty
