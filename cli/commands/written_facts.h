// One line for a fact that was just written, set against what was there before.
#pragma once

#include <string>
#include <vector>

#include "service/record.h"
#include "service/snapshot.h"

namespace cli {

// `known` are the facts from before, for what a strike strikes.
std::string line_of(const service::Fact& fact, const service::Snapshot& before, const service::Snapshot& after,
                    const std::vector<service::Fact>& known);

// For each meter that the facts show a value of: its newest reading before and after.
std::vector<std::string> newest_readings(const std::vector<service::Fact>& added, const service::Snapshot& before,
                                         const service::Snapshot& after);

}  // namespace cli
