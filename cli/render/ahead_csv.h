// What lies ahead as CSV: one row a meter and day, point, week or month, part.
#pragma once

#include <string>

#include "render/forecast_text.h"
#include "service/workload.h"

namespace cli {

std::string forecast_as_csv(const Forecast& forecast);
std::string replay_as_csv(const service::Replay& replay);
std::string season_as_csv(const service::SeasonPlan& plan);
std::string workload_as_csv(const service::Workload& load);
std::string parts_as_csv(const service::PartsList& list);

}  // namespace cli
