// The tasks of a job sheet: which points they stand for, what they include, in which order they are done.
#pragma once

#include <vector>

#include "service/job_sheet.h"

namespace service::load {

// A listed sign of the point was seen, and nobody has found it good since.
bool sign_seen(const Point& point);

// The tools of a task, or of a check that follows it (else null).
const std::vector<std::string>& tools_of(const Task& task, const FollowUp* check);

// What a task says is `needs` and tools, each once.
void add_each(std::vector<std::string>& to, const std::vector<std::string>& names);

// `points`: of one machine, what is to be done, in the order of the list. `all`: every point of that machine.
std::vector<SheetTask> sheet_tasks(const Fleet& fleet, const Machine& machine, const std::vector<const Point*>& points,
                                   const std::vector<const Point*>& all, Day as_of);

// Says which tasks of the page are about what makes it unsafe and what each says of running, and brings all into the
// order in which they are done. Filled in of the page are what was seen and what forbids to run it.
void in_order(MachineSheet& page, const Fleet& fleet);

}  // namespace service::load
