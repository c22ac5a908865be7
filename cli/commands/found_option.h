// --found: how something was found.
#pragma once

#include <optional>

#include "parser.h"
#include "service/record.h"

namespace cli {

// Nothing where the option is not given. Fails with usage.
std::optional<service::Found> found_option(const Arguments& arguments);

}  // namespace cli
