// The line above a part of an answer.
#pragma once

#include <string>
#include <string_view>

#include "terminal/look.h"

namespace cli {

inline std::string heading(const Look& look, std::string_view text) { return painted(look, Ink::strong, text) + '\n'; }

}  // namespace cli
