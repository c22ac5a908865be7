// What no plan of one site can cost less than, with the hours that trips have: a proof, not a plan.
#pragma once

#include "visits/trip_model.h"

namespace service::visits::trip {

// Of the points that have a place; `places` is a plan for these. What never waits is done no later than its own day
// where that plan does so. In parts of a penny, as all costs.
Cost bound_of(const SiteModel& model, const Places& places);

}  // namespace service::visits::trip
