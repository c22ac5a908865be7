// Published instances, put to the solver as rounds: who must be served is a safety job, cost is distance.
#pragma once

#include <string>
#include <vector>

#include "routing/problem.h"

namespace test {

using namespace service::routing;

// Time windows and loads (Solomon 1987, the first 25 customers), distances cut to a tenth, as is usual for exact
// solutions: "cut to 0.1". The window is on the start of the service there, so a stay lies in [ready, due + service].
Problem with_windows(const std::string& name, int vehicles, int capacity);

// One shift goes round all places and home; times play no part. Place 0 is home.
Problem round_trip(const std::vector<std::vector<int>>& distances);

// Rounds of limited loads from place 0.
Problem with_loads(const std::vector<std::vector<int>>& distances, const std::vector<int>& loads, int capacity,
                   int vehicles);

std::vector<std::vector<int>> geographic(const std::string& name, std::size_t places);  // TSPLIB's GEO
std::vector<std::vector<int>> lower_triangle(const std::string& name);                  // with its diagonal, row by row
std::vector<std::vector<int>> by_column(const std::string& name);  // strict lower triangle, column by column

}  // namespace test
