// The day on which something that stays true becomes true.
#pragma once

#include <algorithm>
#include <cmath>

#include "service/base.h"

namespace service::usage {

// The first day after `below`, on which it does not hold, up to `at`, on which it does, by halves.
template <class Holds>
Day first_day(Day below, Day at, const Holds& holds) {
  while (days_between(below, at) > 1) {
    const Day middle = below + std::chrono::days{days_between(below, at) / 2};
    (holds(middle) ? at : below) = middle;
  }
  return at;
}

struct ValueOn {
  Day day;
  double value;
};

// The first day after `below` on which something that never falls has come to `wanted`, as it has on `at`: on the line
// between the two, and by halves where that does not help.
template <class ValueOfDay>
Day first_day_at(ValueOn below, ValueOn at, double wanted, const ValueOfDay& value_on) {
  for (bool halve = false; days_between(below.day, at.day) > 1;) {
    const int days = days_between(below.day, at.day);
    const double part = halve || below.value >= at.value ? 0.5 : (wanted - below.value) / (at.value - below.value);
    const Day day = below.day + std::chrono::days{std::clamp(static_cast<int>(std::ceil(part * days)), 1, days - 1)};
    const ValueOn between{day, value_on(day)};
    (between.value >= wanted ? at : below) = between;
    halve = !halve && days_between(below.day, at.day) > days / 2;
  }
  return at.day;
}

}  // namespace service::usage
