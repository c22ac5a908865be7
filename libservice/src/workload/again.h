// Whether a task that is done today comes due again by a day.
#pragma once

#include <map>
#include <optional>
#include <utility>

#include "service/workload.h"

namespace service::load {

class Again {
 public:
  Again(const Snapshot& snapshot, const Forecaster& forecaster) : snapshot_(snapshot), forecaster_(forecaster) {}

  // By calendar and use alone; nothing where neither says anything, and of a check, which comes once.
  std::optional<Probability> odds(const Point& point, Day by);

 private:
  struct Meters {
    Histories histories;
    Aheads ahead;
  };
  const Aheads& ahead_of(const Machine& machine);

  const Snapshot& snapshot_;
  const Forecaster& forecaster_;
  std::map<const Machine*, Meters> meters_;
};

}  // namespace service::load
