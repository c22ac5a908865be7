// The line above a part of an answer.
#pragma once

#include <string>
#include <string_view>

#include "terminal/look.h"

namespace cli {

inline std::string heading(const Look& look, std::string_view text) { return painted(look, Ink::strong, text) + '\n'; }

// Above the machines that nobody may run: the first thing that is said.
inline constexpr std::string_view out_of_use_title = "Out of use: do not run";

}  // namespace cli
