// How many columns a text takes on a terminal, counted by what people see as one character; its colours take none.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace cli {

std::size_t width(std::string_view text);

// Filled with blanks up to so many columns; a longer text stays whole.
std::string padded(std::string_view text, std::size_t columns);
std::string padded_left(std::string_view text, std::size_t columns);

}  // namespace cli
