// Text as a shell takes it for one word.
#pragma once

#include <string>

namespace cli {

// In quotes where it needs them.
std::string shell_word(const std::string& text);

}  // namespace cli
