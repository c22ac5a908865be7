// The order in which the tasks of a page are best done.
#pragma once

#include "service/job_sheet.h"

namespace service::load {

// Brings the tasks of the page into it, and says which want the machine cold again. Which are about what makes it
// unsafe is said.
void in_order(MachineSheet& page);

}  // namespace service::load
