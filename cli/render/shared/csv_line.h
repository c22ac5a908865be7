// Lines of CSV (RFC 4180) that a spreadsheet can open without starting a formula.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "service/base.h"
#include "service/csv.h"

namespace cli {

using service::csv_line;

using service::csv_text;

template <class T>
std::string figure(const std::optional<T>& value) {
  using service::to_text;  // of days; what is of a room is found by its arguments
  return value ? std::string(to_text(*value)) : "";
}

inline std::string yes_or_no(bool value) { return value ? "yes" : "no"; }

// Rows of several kinds under one head: each names the columns that it fills, the others stay blank.
class CsvTable {
 public:
  explicit CsvTable(std::vector<std::string> columns);
  // Each row about a machine says under `do_not_run` whether nobody may run it, though it does not fill that column.
  // Empty of a machine that is not known.
  using DoNotRun = std::function<std::optional<bool>(std::string_view machine)>;
  CsvTable(std::vector<std::string> columns, DoNotRun do_not_run);
  void add(const std::vector<std::pair<std::string_view, std::string>>& cells);
  const std::string& text() const { return text_; }

 private:
  void fill_do_not_run(std::vector<std::string>& row) const;

  std::vector<std::string> columns_;
  std::string text_;
  DoNotRun do_not_run_;
};

}  // namespace cli
