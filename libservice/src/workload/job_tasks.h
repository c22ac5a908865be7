// The tasks of a job sheet: which points they stand for, what they include, in which order they are done.
#pragma once

#include <vector>

#include "service/job_sheet.h"

namespace service::load {

// A listed sign of the point was seen, and nobody has found it good since.
bool sign_seen(const Point& point);

// `points`: of one machine, what is to be done, in the order of the list. `all`: every point of that machine.
// `run_last`: what needs the machine running comes behind all else.
std::vector<SheetTask> sheet_tasks(const Fleet& fleet, const Machine& machine, const std::vector<const Point*>& points,
                                   const std::vector<const Point*>& all, Day as_of, bool run_last);

}  // namespace service::load
