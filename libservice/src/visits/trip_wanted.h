// Which points of a due list are work of a span of weeks.
#pragma once

#include <vector>

#include "service/visits.h"
#include "visits/trip_groups.h"
#include "visits/week_parts.h"

namespace service::visits::trip {

// By site in the order of the fleet file, those of each in the order of the list; each with at least one. Fills what
// the plan says of all others, and what it costs nothing for want of a price.
std::vector<std::vector<TripPoint>> wanted_by_site(VisitsPlan& plan, const std::vector<CrewDay>& crew_days);

}  // namespace service::visits::trip
