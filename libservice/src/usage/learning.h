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

// Whether it will be asked how late services come: by odds that are told an interval.
enum class LatenessAsked { yes, no };

LearntMeter learn(const Fleet& fleet, const std::vector<KinFacts>& kin, const std::string& meter, Day as_of,
                  LatenessAsked lateness_asked = LatenessAsked::yes);

}  // namespace service::usage
