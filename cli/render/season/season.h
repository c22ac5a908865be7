// What to do before a season: what is due, in rows with odds; what it takes; what can wait.
#pragma once

#include <string>

#include "render/shared/formats.h"
#include "service/workload.h"

namespace cli {

std::string season_as_text(const service::SeasonPlan& plan, const Look& look);
std::string season_as_json(const service::SeasonPlan& plan);
std::string season_as_csv(const service::SeasonPlan& plan);  // one row a point or gap

// `31.2 h of work and 40 parts before 2026-08-01; order knives by 2026-07-10.`
std::string season_in_a_line(const service::SeasonPlan& plan);

inline constexpr Format<service::SeasonPlan> season_formats[] = {
    {"text", season_as_text}, {"json", season_as_json}, {"csv", season_as_csv}};

}  // namespace cli
