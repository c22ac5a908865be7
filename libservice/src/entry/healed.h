// Measured values that come back within their limit, though nothing says that what was measured was renewed.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "service/fleet.h"
#include "service/record.h"
#include "service/snapshot.h"

namespace service::entry {

struct Healed {
  const Task* task = nullptr;  // whose limit it is
  std::string position;        // of its point; empty where it has none
  MeasuredLimb limb;
  std::size_t was = 0;  // at its limit or beyond: which of the facts
  std::size_t is = 0;   // the first one behind it that is not
};

// As they stand at the end: no service of the point lies behind, and no value at the limit again. `facts`: of that
// machine, unstruck, in the one order.
std::vector<Healed> healed_in(const Fleet& fleet, const Machine& machine, std::span<const Fact> facts);

}  // namespace service::entry
