// The use of real machines, day by day, as open data have it (tests/honesty/use).
#pragma once

#include <random>
#include <string>
#include <vector>

#include "honesty/trial.h"

namespace honesty {

enum class Half { all, first, second };  // of the machines, taken in turns within their kind

struct RealSet {
  std::string name;
  World world;  // without intervals
};

std::vector<RealSet> real_sets(const std::string& folder, Half half);

// Intervals of about 20, 50 and 120 days of a kind's mean use, those that fit into the data twice.
void draw_intervals(World& world, std::mt19937_64& random);

// The days on which a set is asked: ages of a book, while a sensible part of the data lies ahead.
std::vector<Day> days_to_ask(const World& world);

}  // namespace honesty
