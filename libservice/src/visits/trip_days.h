// On which days somebody can go to a site, and for how long.
#pragma once

#include <optional>
#include <vector>

#include "service/rounds.h"
#include "visits/crew_days.h"
#include "visits/trip_stays.h"
#include "visits/trips.h"

namespace service::visits::trip {

struct CrewTrip {
  const Crew* crew = nullptr;
  Trip trip;
  TripHours hours;
  int room = 0;                      // minutes of work that this crew-day holds there, at most
  int longest = 0;                   // of one stay
  std::vector<const Point*> booked;  // what it does there already
};

struct TripDay {
  Day on;
  std::vector<CrewTrip> crews;  // the cheapest first, then in the order of the fleet file

  int longest_stay() const;
  const CrewTrip& cheapest() const { return crews.front(); }
};

// Whether a trip has time for these, beside what is booked: with one stay a machine.
bool has_time(const Fleet& fleet, const CrewTrip& trip, const std::vector<const Point*>& points);

// Days with crews that can do what is needed, while the site is open, and that can stay there at least so many minutes.
// In order.
std::vector<TripDay> trip_days(const Fleet& fleet, const std::vector<CrewDay>& crew_days, const Site& site,
                               const Needs& needs, int minutes);

// The number of the first of these days, from that one on, that holds a stay of so many minutes; none: no such day.
std::optional<int> first_day(const std::vector<TripDay>& days, Day from, int minutes);

}  // namespace service::visits::trip
