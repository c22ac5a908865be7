// The outlook of every machine of a scope, one after the other.
#pragma once

#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "service/workload.h"

namespace service::load {

// What no outlook can say: points of which nothing is known, machines that stand, nobody said until when. And what the
// outlooks rest on that is not known, of the whole fleet first.
struct Unsaid {
  std::vector<PointName>& unknown;
  std::vector<MachineUse>& not_in_use;
  std::vector<Gap>& gaps;
};

void each_outlook(const Snapshot& snapshot, const Forecaster& forecaster, const Progress& progress,
                  const Unsaid& unsaid, const std::function<void(const Machine&, const Outlook&)>& visit);

}  // namespace service::load
