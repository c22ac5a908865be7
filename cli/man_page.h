// The manual page, made from the command table.
#pragma once

#include <string>

namespace cli {

std::string man_page();

}  // namespace cli
