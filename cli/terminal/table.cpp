#include "terminal/table.h"

#include <algorithm>

#include "terminal/width.h"

namespace cli {

std::vector<std::size_t> column_widths(const std::vector<Row>& rows) {
  std::vector<std::size_t> widths;
  for (const Row& row : rows) {
    if (row.size() > widths.size()) widths.resize(row.size());
    for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], width(row[i]));
  }
  return widths;
}

std::string table(const std::vector<Row>& rows, const std::string& indent) {
  const auto widths = column_widths(rows);
  std::string text;
  for (const Row& row : rows) {
    std::string line = indent;
    for (std::size_t i = 0; i < row.size(); ++i) {
      // A column that is empty in all rows takes no room.
      if (widths[i] == 0) continue;
      line += padded(row[i], widths[i]) + "  ";
    }
    line.erase(line.find_last_not_of(' ') + 1);
    text += line + '\n';
  }
  return text;
}

}  // namespace cli
