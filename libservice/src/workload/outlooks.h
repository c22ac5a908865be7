// The outlook of every machine of a scope, one after the other, and the services to come on all of its sample paths.
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

using Drawn = std::vector<std::vector<ComingService>>;  // by sample path

// In the order of the fleet file, by the thread that asked. The paths, up to a day, are drawn by as many threads as the
// machine has: each is the same whoever draws it, and when. `detail`: of the points as they stand today.
void each_outlook(const Snapshot& snapshot, Day to, Detail detail, const Forecaster& forecaster,
                  const Progress& progress, const Unsaid& unsaid,
                  const std::function<void(const Machine&, const Outlook&, const Drawn&)>& visit);

}  // namespace service::load
