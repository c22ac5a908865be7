// How the work of a page is written down afterwards.
#pragma once

#include "service/job_sheet.h"

namespace service::load {

void add_entries(MachineSheet& page);

}  // namespace service::load
