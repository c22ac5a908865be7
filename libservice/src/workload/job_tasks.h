// The tasks of a job sheet: which points they stand for, what they include, in which order they are done.
#pragma once

#include <vector>

#include "service/job_sheet.h"

namespace service::load {

// A listed sign of the point was seen, and nobody has found it good since.
bool sign_seen(const Point& point);

// `points`: of one machine, what is to be done, in the order of the list. `all`: every point of that machine.
std::vector<SheetTask> sheet_tasks(const Fleet& fleet, const Machine& machine, const std::vector<const Point*>& points,
                                   const std::vector<const Point*>& all, Day as_of);

// What is known of the machine's being unsafe.
struct Unsafe {
  const Fleet& fleet;
  const std::vector<const SeenSign*>& seen;
  bool out_of_use = false;
  bool not_to_run = false;  // so, or a sign was seen
};

// Says which tasks it is about, and brings all into the order in which they are done.
void in_order(std::vector<SheetTask>& tasks, const Unsafe& unsafe);

}  // namespace service::load
