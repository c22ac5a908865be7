#include "render/shared/csv_line.h"

#include <algorithm>
#include <stdexcept>

namespace cli {

CsvTable::CsvTable(std::vector<std::string> columns) : columns_(std::move(columns)), text_(csv_line(columns_)) {}

CsvTable::CsvTable(std::vector<std::string> columns, DoNotRun do_not_run) : CsvTable(std::move(columns)) {
  do_not_run_ = std::move(do_not_run);
}

void CsvTable::fill_do_not_run(std::vector<std::string>& row) const {
  if (!do_not_run_) return;
  const auto cell = [&](std::string_view name) -> std::string* {
    const auto column = std::find(columns_.begin(), columns_.end(), name);
    return column == columns_.end() ? nullptr : &row[static_cast<std::size_t>(column - columns_.begin())];
  };
  const std::string* const machine = cell("machine");
  std::string* const says = cell("do_not_run");
  if (machine == nullptr || says == nullptr || machine->empty() || !says->empty()) return;
  if (const auto stopped = do_not_run_(*machine)) *says = yes_or_no(*stopped);
}

void CsvTable::add(const std::vector<std::pair<std::string_view, std::string>>& cells) {
  std::vector<std::string> row(columns_.size());
  for (const auto& [name, text] : cells) {
    const auto column = std::find(columns_.begin(), columns_.end(), name);
    if (column == columns_.end()) throw std::logic_error("a column that the head does not name");
    row[static_cast<std::size_t>(column - columns_.begin())] = text;
  }
  fill_do_not_run(row);
  text_ += csv_line(row);
}

}  // namespace cli
