// The outlook of every machine of a scope, one after the other.
#pragma once

#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "service/workload.h"

namespace service::load {

// Beside the outlooks: points of which nothing is known, machines that are not in use (those that are back some day
// have an outlook from then on), and what the outlooks rest on that is not known, of the whole fleet first.
struct Unsaid {
  std::vector<PointName>& unknown;
  std::vector<MachineUse>& not_in_use;
  std::vector<Gap>& gaps;
};

// The machines of the scope that nobody may run. Facts alone tell.
NotToRun not_to_run_of(const Snapshot& snapshot);

void each_outlook(const Snapshot& snapshot, const Forecaster& forecaster, const Progress& progress,
                  const Unsaid& unsaid, const std::function<void(const Machine&, const Outlook&)>& visit);

}  // namespace service::load
