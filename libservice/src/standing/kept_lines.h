// Small files that the program keeps for itself: a first line that says what they are, lines, and the checksum of all
// of them last.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "service/parsed.h"

namespace service {

inline constexpr const char* is_damaged = "is damaged";

std::vector<std::string_view> split(std::string_view text, char mark);

// With its checksum. `text` begins with the first line and ends with a line's end.
std::string sealed(std::string text);

// The lines behind the first; a problem where it begins otherwise, or is damaged. They view `text`.
Parsed<std::vector<std::string_view>> unsealed(std::string_view text, std::string_view first_line);

}  // namespace service
