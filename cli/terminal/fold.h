// The last word on width: whatever was laid out, no line runs past the terminal's edge.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace cli {

// Lines that are wider than the columns go on below, a little further in, broken at blanks. A word that is wider than
// that stands whole. No columns: as it is.
std::string folded(std::string_view text, std::size_t columns);

}  // namespace cli
