// Whole answers as JSON, for the commands that ask for one and for the answer that holds several. For the files that
// write JSON alone.
#pragma once

#include <string>

#include "render/due/due.h"
#include "render/forecast/forecast.h"
#include "render/history/history.h"
#include "render/parts/parts.h"
#include "render/season/season.h"
#include "render/shared/json_parts.h"
#include "render/workload/workload.h"

namespace cli {

Json due_answer(const DueAnswer& due);
Json overdue_answer(const service::DueList& list);
Json season_answer(const service::SeasonPlan& plan, const std::string& command);  // command: see Look
Json workload_answer(const service::Workload& load);
Json parts_answer(const service::PartsList& list);
Json forecast_answer(const ForecastAnswer& answer);
Json history_answer(const service::Book& book);

}  // namespace cli
