// A season's list, and what the whole fleet needs for it: for answers that show both.
#pragma once

#include <vector>

#include "service/season.h"

namespace service::load {

struct WholePlan {
  SeasonPlan plan;
  std::vector<PartNeed> needs;     // of the whole fleet, with what other work takes from the same stock
  std::vector<Gap> gaps;           // of the whole fleet
  std::vector<PointName> unknown;  // of what other work does on the machines of the scope
};

// Fails as `season_plan` does.
WholePlan whole_plan(const Snapshot& snapshot, const SeasonAsk& ask, const Forecaster& forecaster);

// As `parts_before` lists them.
PartsList parts_for(const Snapshot& snapshot, const WholePlan& whole);

// The services until a day that are in that list in no way, what it buys being in stock by then.
PartsList parts_beyond(const Snapshot& snapshot, const WholePlan& whole, Day to, const Forecaster& forecaster,
                       const Progress& progress);

}  // namespace service::load
