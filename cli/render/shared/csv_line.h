// Lines of CSV (RFC 4180) that a spreadsheet can open without starting a formula.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
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
  CsvTable(const CsvTable&) = delete;
  CsvTable& operator=(const CsvTable&) = delete;
  CsvTable(CsvTable&&) = default;
  CsvTable& operator=(CsvTable&&) = delete;
  ~CsvTable() = default;
  // Each row about a machine says under `do_not_run` whether nobody may run it, though it does not fill that column.
  // Empty of a machine that is not known.
  using DoNotRun = std::function<std::optional<bool>(std::string_view machine)>;
  CsvTable(std::vector<std::string> columns, DoNotRun do_not_run);
  void add(const std::vector<std::pair<std::string_view, std::string>>& cells) { text_ += line(cells); }
  const std::string& text() const { return text_; }
  std::string take_text() { return std::exchange(text_, {}); }  // for who tells it bit by bit

  // A row that is not added.
  std::string line(const std::vector<std::pair<std::string_view, std::string>>& cells) const;

 private:
  std::optional<std::size_t> place_of(std::string_view column) const;
  void fill_do_not_run(std::vector<std::string_view>& row) const;

  std::vector<std::string> columns_;
  std::unordered_map<std::string_view, std::size_t> places_;  // of the columns, by name
  std::optional<std::size_t> machine_;                        // where these columns are
  std::optional<std::size_t> says_;
  std::string text_;
  DoNotRun do_not_run_;
};

}  // namespace cli
