// Lists as CSV, by the library's one writer, and how figures stand in them.
#pragma once

#include <optional>
#include <string>

#include "service/base.h"
#include "service/csv.h"

namespace cli {

using service::csv_line;
using service::csv_text;

template <class T>
std::string figure(const std::optional<T>& value) {
  return value ? std::string(service::to_text(*value)) : "";
}

// Odds and means are estimates: more digits would claim to know more.
std::string decimal(double value);
std::string share(const std::optional<double>& value);

}  // namespace cli
