// Rows whose columns line up, whatever script their texts are in.
#pragma once

#include <string>
#include <vector>

namespace cli {

using Row = std::vector<std::string>;

// Two blanks between columns; the last cell of a row is not filled up. Cells hold no line ends.
std::string table(const std::vector<Row>& rows, const std::string& indent = "");

std::vector<std::size_t> column_widths(const std::vector<Row>& rows);

}  // namespace cli
