// One line for a fact that was just written, set against what was there before.
#pragma once

#include <string>
#include <vector>

#include "service/entry.h"

namespace cli {

std::string line_of(const service::Fact& fact, const service::Entered& entered);

// For each meter that the facts show a value of: its newest reading before and after.
std::vector<std::string> newest_reading_lines(const service::Entered& entered);

}  // namespace cli
