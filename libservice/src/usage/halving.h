// The day on which something that stays true becomes true, by halves.
#pragma once

#include "service/base.h"

namespace service::usage {

// The first day after `below`, on which it does not hold, up to `at`, on which it does.
template <class Holds>
Day first_day(Day below, Day at, const Holds& holds) {
  while (days_between(below, at) > 1) {
    const Day middle = below + std::chrono::days{days_between(below, at) / 2};
    (holds(middle) ? at : below) = middle;
  }
  return at;
}

}  // namespace service::usage
