// What the season's work has to mind.
#pragma once

#include <string>
#include <vector>

#include "service/season.h"
#include "terminal/look.h"

namespace cli {

struct SeasonCaution {
  std::string caution;  // as a schedule writes it
  std::string where;    // `engine-oil, brakes of sprayer`
};

std::vector<SeasonCaution> cautions_in_words(const service::SeasonPlan& plan);

// Each caution of both blocks once, in full, and at which of their tasks it is to be minded. Empty where no schedule
// says anything.
std::string season_cautions(const service::SeasonPlan& plan, const Look& look);

}  // namespace cli
