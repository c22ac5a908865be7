// A mistake in the words of a command line, told in one way.
#pragma once

#include <string>

namespace cli {

// Fails with usage.
[[noreturn]] void wrong(std::string code, std::string message, std::string hint);

}  // namespace cli
