// The best plan that can be found, and a bound that is proven: no plan has a smaller value.
#pragma once

#include <cstddef>
#include <functional>

#include "routing/problem.h"

namespace service::routing {

struct Solution {
  Plan plan;
  Value value;
  Value bound;          // never above the value of any plan
  bool proven = false;  // bound and value are the same
  bool stopped = false;
};

struct Effort {
  int times = 1;                    // steps, not seconds: equal problems give equal solutions
  std::function<bool()> stop = {};  // true: hand out what there is
  std::function<void(std::size_t done, std::size_t of, const Value& value, const Value& bound)> progress = {};
};

Solution solve(const Problem& problem, const Effort& effort = {});

}  // namespace service::routing
