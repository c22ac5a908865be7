// A trip for its own sake: from a crew's start to a site, and back to its end.
#pragma once

#include <optional>

#include "service/rounds.h"

namespace service::visits {

struct Trip {
  Leg there;
  Leg home;
  int set_up_minutes = 0;  // none where the crew starts at the site
  Money cost;
  int drive_minutes() const { return there.minutes + home.minutes; }
};

// None where that crew cannot get there and back.
std::optional<Trip> trip_of(const Fleet& fleet, const Crew& crew, const Site& site);

// With set-up, for the cheapest crew of these days. None where none of them can get there and back.
std::optional<Money> cheapest_trip(const Fleet& fleet, const std::vector<CrewDay>& days, const Site& site);

// That much of it that a visit put off will still need, shared by so many; nothing where nobody gets there.
Money later_trip_share(const Fleet& fleet, const std::optional<Money>& trip, std::size_t shared_by);

}  // namespace service::visits
