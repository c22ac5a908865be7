// Simulated truths: how machines of nine kinds really run, day by day. None of them is the model that the forecast
// fits: use is made of working days, jobs, weather and breakdowns, not of a level times a profile.
#pragma once

#include <random>
#include <string>
#include <vector>

#include "service/base.h"

namespace honesty {

struct Kind {
  std::string name;
  std::string what;  // how it runs, in a line
};

const std::vector<Kind>& kinds();

// Hours of each day from `from` on, for the machines of one fleet and one kind (they share the weather).
std::vector<std::vector<double>> hours_of(const std::string& kind, int machines, service::Day from, int days,
                                          std::mt19937_64& random);

// The first day on which a machine of this kind is there, counted from the start of the simulation.
int starts_on(const std::string& kind, int days, std::mt19937_64& random);

}  // namespace honesty
