// The plan of one site, tried with fewer crews too.
#pragma once

#include <vector>

#include "visits/trip_site.h"

namespace service::visits::trip {

// Each crew that could go is left out in turn, where they are few with those that are left again: so no plan is behind
// one that is made without some of them (`VisitsAsk::without`).
SitePlans plan_site_by_any(const Fleet& fleet, const std::vector<CrewDay>& crew_days,
                           const std::vector<TripPoint>& points, const SiteWork& work);

}  // namespace service::visits::trip
