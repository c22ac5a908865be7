// What goes to standard error with --format json. For people it is render/shared/diagnostics.h.
#pragma once

#include <span>
#include <string>

#include "service/base.h"

namespace cli {

// One object a line. `command`: how printed commands begin (`Look`).
std::string errors_as_json(std::span<const service::Diagnostic> diagnostics, const std::string& command);

}  // namespace cli
