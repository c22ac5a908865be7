// A trip for its own sake: from a crew's start to a site, and back to its end.
#pragma once

#include <optional>

#include "service/rounds.h"

namespace service::visits {

// With set-up, for the cheapest crew of these days. None where none of them can get there and back.
std::optional<Money> cheapest_trip(const Fleet& fleet, const std::vector<CrewDay>& days, const Site& site);

// That much of it that a visit put off will still need, shared by so many; nothing where nobody gets there.
Money later_trip_share(const Fleet& fleet, const std::optional<Money>& trip, std::size_t shared_by);

}  // namespace service::visits
