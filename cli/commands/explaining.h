// One standing taken apart: rule, facts, sums, and which limb rules.
#pragma once

#include "render/answers.h"
#include "service/snapshot.h"
#include "service/standing.h"

namespace cli {

Explained explain(const service::Snapshot& snapshot, const service::DueList& list, const service::Point& point,
                  const service::Forecaster& forecaster);

}  // namespace cli
