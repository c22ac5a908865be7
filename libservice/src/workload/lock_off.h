// What is locked off for the work of a page and how long, and what is ticked behind it.
#pragma once

#include "service/job_sheet.h"

namespace service::load {

// Of the work of the day, and of each later day by itself. Filled in are the tasks in their order, looks and cautions.
void lock_off(const Fleet& fleet, MachineSheet& page);

}  // namespace service::load
