// What was written, as JSON that others may add to.
#pragma once

#include <string>

#include "render/shared/json_parts.h"
#include "render/written/written.h"

namespace cli {

Json json_of(const Written& written, const std::string& command);

}  // namespace cli
