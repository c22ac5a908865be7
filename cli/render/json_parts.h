// Pieces that several JSON answers share. For the json*.cpp files alone.
#pragma once

#include <nlohmann/json.hpp>

#include "service/record.h"
#include "service/standing.h"

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

Json point_as_json(const service::Point& point);
Json gap_as_json(const service::Gap& gap);
Json fact_as_json(const service::Fact& fact);

std::string dumped(const Json& json);  // indented, with a line end
std::string dumped_line(const Json& json);

}  // namespace cli
