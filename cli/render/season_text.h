// The list of a season for people.
#pragma once

#include <string>

#include "service/workload.h"
#include "terminal/look.h"

namespace cli {

std::string season_as_text(const service::SeasonPlan& plan, const Look& look);

// The line to act on: `31.2 h of work and 14 parts before 2026-08-01; ...`.
std::string season_in_a_line(const service::SeasonPlan& plan);

}  // namespace cli
