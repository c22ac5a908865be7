// Pieces that several JSON answers share. For the files that write JSON alone.
#pragma once

#include <cmath>
#include <nlohmann/json.hpp>

#include "service/record.h"
#include "service/standing.h"
#include "service/workload.h"

namespace cli {

using service::to_text;
using Json = nlohmann::ordered_json;

// Hundredths and millionths print exactly: a double of their size has digits to spare for the shortest decimal.
template <class Kind>
Json number(service::Exact<Kind> quantity) {
  return static_cast<double>(quantity.hundredths) / 100.0;
}
Json number(service::Measure measure);
Json text_or_null(const std::string& text);

template <class T>
Json number_or_null(const std::optional<T>& value) {
  return value ? number(*value) : Json(nullptr);
}
Json day_or_null(const std::optional<service::Day>& day);

// Odds and means are estimates: more digits would claim to know more.
inline double rounded(double value, double digits) { return std::round(value * digits) / digits; }
Json share_or_null(const std::optional<double>& share);

Json head_of(const service::DueList& list);       // fleet and day
Json place_of(const service::Point& point);       // machine, task, position
Json span_as_json(const service::DueSpan& span);  // three days
Json point_as_json(const service::Point& point);
Json gap_as_json(const service::Gap& gap);
Json fact_as_json(const service::Fact& fact);
std::string_view state_name(service::UseKind kind);
Json machine_as_json(const service::MachineUse& use);
Json need_as_json(const service::PartNeed& need);
Json unknown_as_json(const std::vector<std::pair<const service::Machine*, std::string>>& unknown);
Json keys_of(const std::vector<const service::Machine*>& machines);

std::string dumped(const Json& json);  // indented, with a line end
std::string dumped_line(const Json& json);

}  // namespace cli
