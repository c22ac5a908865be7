// How the work of a page is written down afterwards.
#pragma once

#include "service/job_sheet.h"

namespace service::load {

// `seen`: of the list of its points.
void add_entries(MachineSheet& page, const std::vector<SeenSign>& seen, const std::vector<const Point*>& points);

}  // namespace service::load
