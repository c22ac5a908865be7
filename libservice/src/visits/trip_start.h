// A first plan of one site: its groups one after the other, each also on the trips that those before it make.
#pragma once

#include <vector>

#include "visits/trip_model.h"

namespace service::visits::trip {

struct Start {
  Places places;
  Cost least = 0;        // of the days as they were asked for
  bool as_asked = true;  // one trip a day, by its cheapest crew, with all that was to be done that day
};

// On its own day each, or on the cheapest days. In the order of these groups, by number.
Start start_of(const SiteModel& model, const std::vector<Group>& groups, const std::vector<std::size_t>& order,
               bool own_days);

}  // namespace service::visits::trip
