// Rows whose columns line up, whatever script their texts are in, and keep to the terminal's columns.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace cli {

using Row = std::vector<std::string>;

// Two blanks between columns; the last cell of a row is not filled up. Cells hold no line ends.
//
// Where the rows are wider than `columns` (0: as wide as it takes), the widest columns are made narrower and their
// texts broken at blanks. Where that does not do, the last columns stand below the others in lines of their own.
std::string table(const std::vector<Row>& rows, const std::string& indent, std::size_t columns);

// The same row by row, for what stands between them.
std::vector<std::string> table_rows(const std::vector<Row>& rows, const std::string& indent, std::size_t columns);

std::vector<std::size_t> column_widths(const std::vector<Row>& rows);

}  // namespace cli
