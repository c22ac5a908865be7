// What is wrong, for people: the place (which editors can jump to), the line with a mark under it, and what to do.
//
//   fleet.yaml:14:16: error: `on` needs a day, but "May 1" is not a date like 2026-03-01
//    14 |     on: May 1
//       |         ^^^^^
//   hint: write the day as YYYY-MM-DD
#pragma once

#include <span>
#include <string>

#include "service/base.h"

namespace cli {

// One blank line between two. Text from files is cleaned; no colours. `command`: how printed commands begin (`Look`).
std::string diagnostics_to_text(std::span<const service::Diagnostic> diagnostics, const std::string& command);

}  // namespace cli
