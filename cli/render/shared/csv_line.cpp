#include "render/shared/csv_line.h"

#include <stdexcept>

namespace cli {

CsvTable::CsvTable(std::vector<std::string> columns) : columns_(std::move(columns)), text_(csv_line(columns_)) {
  for (std::size_t i = 0; i < columns_.size(); ++i) places_.emplace(columns_[i], i);
  machine_ = place_of("machine");
  says_ = place_of("do_not_run");
}

CsvTable::CsvTable(std::vector<std::string> columns, DoNotRun do_not_run) : CsvTable(std::move(columns)) {
  do_not_run_ = std::move(do_not_run);
}

std::optional<std::size_t> CsvTable::place_of(std::string_view column) const {
  const auto found = places_.find(column);
  return found != places_.end() ? std::optional(found->second) : std::nullopt;
}

void CsvTable::fill_do_not_run(std::vector<std::string_view>& row) const {
  if (!do_not_run_ || !machine_ || !says_ || row[*machine_].empty() || !row[*says_].empty()) return;
  if (const auto stopped = do_not_run_(row[*machine_])) row[*says_] = *stopped ? "yes" : "no";
}

std::string CsvTable::line(const std::vector<std::pair<std::string_view, std::string>>& cells) const {
  std::vector<std::string_view> row(columns_.size());
  for (const auto& [name, text] : cells) {
    const auto place = place_of(name);
    if (!place) throw std::logic_error("a column that the head does not name");
    row[*place] = text;
  }
  fill_do_not_run(row);
  return csv_line(row);
}

}  // namespace cli
