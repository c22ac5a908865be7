// From the facts of a kind's machines to what they teach about one of their meters.
#pragma once

#include <memory>
#include <span>
#include <string>
#include <vector>

#include "service/usage.h"
#include "usage/pooled_model.h"

namespace service::usage {

// A machine of the kind and its unstruck facts, in the one order.
struct KinFacts {
  const Machine* machine = nullptr;
  std::span<const Fact> facts;
};

struct LearntMeter {
  std::shared_ptr<const PooledModel> pooled;
  double unit = 1;  // a day's mean use of the kind, by the meter
};

LearntMeter learn(const Fleet& fleet, const std::vector<KinFacts>& kin, const std::string& meter, Day as_of);

}  // namespace service::usage
