// The best plan that can be found, and a bound that is proven: no plan has a smaller value.
#pragma once

#include <cstddef>
#include <functional>

#include "routing/problem.h"

namespace service::routing {

// How much is tried before what is proven so far has to do.
struct Budget {
  std::size_t search_steps = 20'000;    // of the search for a good plan
  std::size_t passes = 400;             // of the linear program
  std::size_t most_labels = 30'000;     // of one pricing
  std::size_t listed_labels = 200'000;  // of listing the rounds of a better plan
  std::size_t choosing_steps = 1'000'000;
};

struct Solution {
  Plan plan;
  Value value;
  Value bound;          // never above the value of any plan
  bool proven = false;  // bound and value are the same
  bool stopped = false;
};

struct Effort {
  // The budget: steps, not seconds, so that equal problems give equal solutions. Of more than one, first once.
  int times = 1;
  std::function<bool()> stop = {};  // true: hand out what there is
  std::function<void(std::size_t done, std::size_t of, const Value& value, const Value& bound)> progress = {};
};

Solution solve(const Problem& problem, const Effort& effort = {}, const Budget& once = {});

}  // namespace service::routing
