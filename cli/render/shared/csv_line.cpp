#include "render/shared/csv_line.h"

#include <algorithm>
#include <stdexcept>

namespace cli {

CsvTable::CsvTable(std::vector<std::string> columns) : columns_(std::move(columns)), text_(csv_line(columns_)) {}

void CsvTable::add(const std::vector<std::pair<std::string_view, std::string>>& cells) {
  std::vector<std::string> row(columns_.size());
  for (const auto& [name, text] : cells) {
    const auto column = std::find(columns_.begin(), columns_.end(), name);
    if (column == columns_.end()) throw std::logic_error("a column that the head does not name");
    row[static_cast<std::size_t>(column - columns_.begin())] = text;
  }
  text_ += csv_line(row);
}

}  // namespace cli
