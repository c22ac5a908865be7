// The machines of a walk in its order, and what their meters show.
#pragma once

#include <vector>

#include "service/job_sheet.h"

namespace service::load {

std::vector<SheetMeter> meters_of(const Snapshot& snapshot, const Machine& machine, const std::vector<Gap>& gaps);

// Machines as somebody comes to them: site by site, those without one last. Those that are kept on that day.
std::vector<const Machine*> by_site(const Fleet& fleet, const Scope& scope, Day on);

}  // namespace service::load
