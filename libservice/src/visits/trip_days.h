// On which days somebody can go to a site, and for how long.
#pragma once

#include <optional>
#include <vector>

#include "service/rounds.h"
#include "visits/crew_days.h"
#include "visits/trips.h"

namespace service::visits::trip {

struct CrewTrip {
  const Crew* crew = nullptr;
  Trip trip;
  int room = 0;  // minutes of work that this crew-day holds there
};

struct TripDay {
  Day on;
  std::vector<CrewTrip> crews;  // the cheapest first, then in the order of the fleet file

  int longest_room() const;
  const CrewTrip& cheapest() const { return crews.front(); }
};

// Days with crews that can do what is needed, while the site is open, and that have at least so many minutes there. In
// order.
std::vector<TripDay> trip_days(const Fleet& fleet, const std::vector<CrewDay>& crew_days, const Site& site,
                               const Needs& needs, int minutes);

// The number of the first of these days, from that one on, that holds so many minutes; none: no such day.
std::optional<int> first_day(const std::vector<TripDay>& days, Day from, int minutes);

}  // namespace service::visits::trip
