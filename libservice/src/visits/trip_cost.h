// What it costs to do a service on a day of weeks ahead: over the span of days in which it may come due.
#pragma once

#include <array>

#include "visits/point_cost.h"
#include "visits/trip_path.h"

namespace service::visits::trip {

class SpanCost {
 public:
  // `worth` as of its one due day.
  SpanCost(const Point& point, const PointWorth& worth, Day as_of);

  // Each rounded once.
  Money early(Day done_on) const;
  Money late(Day done_on) const;
  // Of both, not rounded. What is equal is settled towards the day on which it is due.
  Cost compared(Day done_on) const;

 private:
  std::array<PointWorth, 3> worths_;  // of a service that comes due at the early end, in the middle, at the late end
  Day as_of_;
  Day wished_;
};

}  // namespace service::visits::trip
