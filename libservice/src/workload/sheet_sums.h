// What the work of a page takes: labour, parts and tools, and what to mind at it.
#pragma once

#include "service/job_sheet.h"

namespace service::load {

// Filled in are the tasks in their order, the looks and what was seen.
void add_up(const Fleet& fleet, MachineSheet& sheet);

}  // namespace service::load
