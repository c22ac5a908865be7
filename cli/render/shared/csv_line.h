// Lines of CSV (RFC 4180) that a spreadsheet can open without starting a formula.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "service/base.h"

namespace cli {

std::string csv_line(const std::vector<std::string>& cells);  // with its line end

// One cell of text: quoted where needed; what would start a formula is led by an apostrophe.
std::string csv_text(std::string_view text);

template <class T>
std::string figure(const std::optional<T>& value) {
  return value ? std::string(service::to_text(*value)) : "";
}

// Odds and means are estimates: more digits would claim to know more.
std::string decimal(double value);
std::string share(const std::optional<double>& value);

}  // namespace cli
