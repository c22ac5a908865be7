// What is expected of a point, taken apart: from which readings, with which odds, and what it will take.
#pragma once

#include <string>
#include <vector>

#include "service/snapshot.h"
#include "service/standing.h"

namespace cli {

std::vector<std::string> expectations(const service::Snapshot& snapshot, const service::Point& point,
                                      const service::Forecaster& forecaster);

}  // namespace cli
