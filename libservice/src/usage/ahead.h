// One meter's future as a distribution, from what was learnt of it.
//
// Usage on a day is a gamma process with a random level: mean L and variance L v, so that the odds of having passed a
// level are Q(L / v, left / v) (first passage of a gamma process: van Noortwijk, Reliability Engineering & System
// Safety 94 (2009) 2-21, from memory). A mixture over ideas of the level, over a season that comes early or late, and
// over how long a machine that stands will go on standing.
#pragma once

#include <array>
#include <memory>

#include "service/usage.h"
#include "usage/kind.h"

namespace service::usage {

// So many days earlier (negative) or later than usual, and the odds of it.
struct Slip {
  int days = 0;
  double weight = 0;
};

using Slips = std::array<Slip, 5>;

Slips usual_slips();

// A machine that stands begins again after so many days.
struct Pause {
  int days = 0;
  double weight = 1;
};

struct AheadFrom {
  Learnt learnt;
  std::shared_ptr<const Kind> kind;
  const MeterHistory& history;
  UseState state;
  Day as_of;
  double unit = 1;  // of the meter, in hours of an hour meter
};

std::unique_ptr<const UsageAhead> ahead_of(AheadFrom from);

}  // namespace service::usage
