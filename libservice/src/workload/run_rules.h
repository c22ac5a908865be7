// What makes a machine unsafe, which tasks of its page are about that, and what each says of running it.
#pragma once

#include "service/job_sheet.h"

namespace service::load {

// It is for safety and overdue, or one that it includes is.
bool is_overdue_safety(const SheetTask& entry);

// Says what is to be mended before anybody runs it, and which tasks are about what makes it unsafe. Filled in of the
// page are its tasks, what was seen and what forbids to run it.
void say_what_is_unsafe(MachineSheet& page, const Fleet& fleet);

// Says of each task and look what that is about running the machine. The tasks are in their order.
void say_run_rules(MachineSheet& page, const Fleet& fleet);

}  // namespace service::load
