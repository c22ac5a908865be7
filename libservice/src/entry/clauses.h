// The clauses of what somebody wrote.
#pragma once

#include <string_view>
#include <vector>

namespace service::entry {

// The parts between the marks of a sentence, without the blanks around them, as views of the text. A mark within a
// number parts nothing, nor does a hyphen within a word. No part is empty.
std::vector<std::string_view> clauses_of(std::string_view text);

// The same text without marks and blanks at its ends, but for a bracket that belongs to one within.
std::string_view without_marks(std::string_view text);

}  // namespace service::entry
