// The trips of a plan with all their figures.
#pragma once

#include "service/visits.h"
#include "visits/trip_packing.h"

namespace service::visits::trip {

struct Sums {
  Money trips;
  Money early;
  Money late;
  Money total() const { return trips + early + late; }
};

Sums sums_of(const Group& group, const Packed& packed);

// `day_of`: on which day each unit was to be done.
SiteVisit visit_of(const DueList& list, const Group& group, const Units& units, const std::vector<int>& day_of,
                   const PackedTrip& trip);

}  // namespace service::visits::trip
