// When a task will have been changed so many more times.
#pragma once

#include <string>
#include <vector>

#include "service/standing.h"
#include "standing/view.h"

namespace service {

// `points`: those of the task that is counted, with their spans.
DueSpan changed_by(const MachineView& view, const std::vector<const Point*>& points, const std::string& task,
                   int times);

}  // namespace service
