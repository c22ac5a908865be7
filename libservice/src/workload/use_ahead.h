// What is known and expected of the meters of each machine, worked out once.
#pragma once

#include <map>

#include "service/usage.h"

namespace service::load {

class UseAhead {
 public:
  UseAhead(const Snapshot& snapshot, const Forecaster& forecaster) : snapshot_(snapshot), forecaster_(forecaster) {}

  const Snapshot& snapshot() const { return snapshot_; }
  const Aheads& ahead_of(const Machine& machine) { return meters_of(machine).ahead; }

  // Usage at the end of a day: as it is known, else its mean; nothing where nothing is.
  std::optional<Amount> usage_on(const Machine& machine, const std::string& meter, Day day);

 private:
  struct Meters {
    Histories histories;
    Aheads ahead;
  };
  const Meters& meters_of(const Machine& machine);

  const Snapshot& snapshot_;
  const Forecaster& forecaster_;
  std::map<const Machine*, Meters> meters_;
};

}  // namespace service::load
