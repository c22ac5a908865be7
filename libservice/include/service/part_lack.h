// What stock does not cover of what some work takes, once it is shared out over the whole fleet by day of need.
#pragma once

#include <optional>
#include <string>

#include "service/base.h"

#pragma GCC visibility push(default)

namespace service {

struct PartLack {
  std::string key;
  std::string unit;                  // of the amounts, as the fleet lists the part
  bool counted = false;              // else nobody said how many there are, and nothing of what follows is claimed
  PartAmount short_by;               // of what this work takes: not in stock
  std::optional<Day> short_on = {};  // the day of the work
  std::optional<Day> order_by = {};  // as the list of parts has it, for all that lacks it
  int late_days = 0;                 // likewise: so many days ago it should have been ordered
  std::optional<Day> there = {};     // if it is ordered on the day asked about, not before the work; none: nobody knows
  bool is_short() const { return counted && short_by.hundredths > 0; }
  bool comes_late() const { return there && short_on && *there > *short_on; }
};

}  // namespace service

#pragma GCC visibility pop
