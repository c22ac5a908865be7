// What of a group is done together, because one service includes another.
#pragma once

#include <vector>

#include "visits/trip_groups.h"
#include "visits/trip_path.h"

namespace service::visits::trip {

// A service that includes others is done with all of them that are best done no earlier: doing them again later would
// do them twice. What is best done earlier may go first, and is included where both are done on one trip.
struct Units {
  std::vector<std::vector<int>> points;  // of each unit: of the group, by number
  std::vector<int> own;                  // of each unit: its day where each service is done on its own day
  PathProblem problem;
};

Units units_of(const Fleet& fleet, const Group& group);

// Whether, of these two, both to be done, the first stands for the other.
bool stands_for(const Fleet& fleet, const Point& whole, const Point& part);

}  // namespace service::visits::trip
