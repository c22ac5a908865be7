// Text broken at blanks to fit the columns.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace cli {

// The text behind its head; lines after the first are indented. Ends with a line end.
// No columns: one line.
std::string wrapped(std::string_view head, std::string_view text, std::size_t columns, std::size_t indent);

// The lines of a text; none for an empty one. A word that is wider stands in a line of its own.
// Numbers stay with what they count, and commands (`whichever due combine`) in one piece.
std::vector<std::string> wrapped_lines(std::string_view text, std::size_t columns);

}  // namespace cli
