// The visits to a site with all their figures.
#pragma once

#include <vector>

#include "service/visits.h"
#include "visits/trip_site.h"

namespace service::visits::trip {

// One a crew-day; by day.
std::vector<SiteVisit> visits_of(const DueList& list, const SitePlan& site);

// What each has to load; they stand in the order in which they are made.
void fill_loads(const std::vector<SiteVisit*>& visits);

}  // namespace service::visits::trip
