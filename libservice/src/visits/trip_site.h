// The plan of one site: its groups one after the other, each also on the trips that those before it make.
#pragma once

#include <vector>

#include "visits/trip_packing.h"

namespace service::visits::trip {

struct GroupPlan {
  Group whole;
  // The same with what the groups before it leave of each crew-day: a trip that is made already costs nothing more.
  Group left;
  Units units;
  std::vector<int> day_of;        // on which day each unit was to be done
  std::vector<PackedTrip> trips;  // crews by their number in `left`
};

struct Sums {
  Money trips;
  Money early;
  Money late;
  Money total() const { return trips + early + late; }
};

struct SitePlan {
  std::vector<GroupPlan> groups;
  std::vector<const Point*> nowhere;  // no day has room for these
  int late_days = 0;                  // of what never waits, behind the first day on which somebody can do it
  Sums sums;
  Cost least = 0;        // of the days as they were asked for
  bool as_asked = true;  // one trip a day, by its cheapest crew, with all that was to be done that day

  std::size_t visits() const;  // a crew-day is one
};

struct SitePlans {
  SitePlan best;
  SitePlan on_own_days;
  Money bound;  // no plan for what `best` does costs less
};

// Of few groups all orders are tried.
SitePlans plan_site(const Fleet& fleet, const std::vector<Group>& groups);

}  // namespace service::visits::trip
