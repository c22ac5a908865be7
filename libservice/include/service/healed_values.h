// Measured values of what never waits that came back within their limit, though nothing says that what was measured was
// renewed. Wear does not heal: a service was not written down, or one of the two values is wrong.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "service/entry.h"

#pragma GCC visibility push(default)

namespace service {

struct HealedValue {
  std::string machine;
  std::string task;      // whose limit it is
  std::string position;  // of its point; empty where it has none
  std::string unit;
  Measure limit;
  bool above = true;  // the limit is reached by what lies above it
  Fact was;           // at its limit or beyond
  Fact is;            // the first one behind it that is not
};

// As they stand: no service of the point lies behind, and no value at its limit again. `facts`: of that machine,
// unstruck, in the one order.
std::vector<HealedValue> healed_values(const Fleet& fleet, const Machine& machine, std::span<const Fact> facts);

// Those that what was added has part in.
std::vector<HealedValue> healed_values(const Entered& entered);

}  // namespace service

#pragma GCC visibility pop
