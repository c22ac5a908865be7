// What the season's work has to mind.
#pragma once

#include <string>

#include "service/season.h"
#include "terminal/look.h"

namespace cli {

// Each caution of both blocks once, in full, and at which of their tasks it is to be minded. Empty where no schedule
// says anything.
std::string season_cautions(const service::SeasonPlan& plan, const Look& look);

}  // namespace cli
