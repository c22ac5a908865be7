// What lies ahead as JSON. Schemas: schemas/*.output.schema.json.
#pragma once

#include <string>

#include "render/forecast_text.h"
#include "service/workload.h"

namespace cli {

std::string forecast_as_json(const Forecast& forecast);
std::string replay_as_json(const service::Replay& replay, service::Day as_of);
std::string season_as_json(const service::SeasonPlan& plan);
std::string workload_as_json(const service::Workload& load);
std::string parts_as_json(const service::PartsList& list);

}  // namespace cli
