// Why a service is on its trip: what it would cost elsewhere, and where it would be better and has no room.
#pragma once

#include <optional>

#include "service/visits.h"
#include "visits/trip_model.h"

namespace service::visits::trip {

// The best day that has no time for it, and for want of what.
struct FullDay {
  Day on;
  TimeLimit by = TimeLimit::hours;
};

class Elsewhere {
 public:
  Elsewhere(const SiteModel& model, const Places& places)
      : model_(model), places_(places), trips_(trips_of(model, places)) {}

  // Of the trips that are made, and of trips of its own, the cheapest that could do it.
  std::optional<OtherTrip> next_best(int point) const;

  // A trip that is made and costs less than where it is; of what never waits and waits: its own day.
  std::optional<FullDay> full_day(int point) const;

  // The day on which it costs least, with what it includes that is best done no earlier.
  Day likely_day(int point) const;

 private:
  std::vector<int> moved_with(int point) const;
  int cheapest_at(const std::vector<int>& points) const;  // a slot
  Cost waiting(const std::vector<int>& points, int at) const;
  bool allowed(const std::vector<int>& points, int to) const;
  bool in_order(int point, int to, const std::vector<int>& along) const;
  bool has_time_at(const std::vector<int>& points, int to) const;
  std::optional<TimeLimit> limit_at(const std::vector<int>& points, int to) const;

  const SiteModel& model_;
  const Places& places_;
  std::vector<std::vector<int>> trips_;
};

}  // namespace service::visits::trip
