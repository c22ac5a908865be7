// Trips out of days: a day holds no more work than its crews have hours there.
#pragma once

#include <vector>

#include "visits/trip_units.h"

namespace service::visits::trip {

struct PackedTrip {
  int day = 0;              // of the group, by number
  int crew = 0;             // of that day, by number
  std::vector<int> points;  // of the group, in order
};

struct Packed {
  std::vector<PackedTrip> trips;  // by day
  std::vector<int> nowhere;       // points that no day has room for
  bool as_asked = true;           // one trip a day, by its cheapest crew, with all that was to be done that day
};

// `day_of`: of each unit. A day whose work is too long for each of its crews is split into trips of several of them;
// what none of them has room for goes where it costs least beside all others. What never waits is placed first.
Packed packed(const Fleet& fleet, const Group& group, const Units& units, const std::vector<int>& day_of);

}  // namespace service::visits::trip
