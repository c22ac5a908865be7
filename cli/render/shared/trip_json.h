// What plans of trips have in common as JSON. For the files that write JSON alone.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "render/shared/json_parts.h"
#include "service/not_to_run.h"
#include "service/rounds_list.h"
#include "service/safety_left.h"

namespace cli {

double km_of(int tenths);
Json key_or_null(const service::Machine* machine);
Json key_or_null(const service::Call* call);

// What is loaded, by key: pieces; of fluids the amount with its unit.
Json parts_as_json(const std::vector<std::pair<std::string, service::PartAmount>>& parts);
Json fluids_as_json(const std::vector<std::pair<std::string, service::Quantity>>& fluids);

// What is loaded and stock does not cover.
Json lack_as_json(const service::PartLack& lack);
Json short_as_json(const std::vector<service::ShortPart>& parts);

Json takes_as_json(const service::Resources& takes);

// What is left of the work for safety at a machine. `not_made`: `not this week`.
Json safety_left_as_json(const std::vector<service::SafetyLeft>& left, service::Day as_of, std::string_view not_made,
                         const service::NotToRun& stopped);

Json not_planned_as_json(const service::NotPlanned& row, const service::Fleet& fleet);

}  // namespace cli
