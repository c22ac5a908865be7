// Which points somebody sees to before a machine that stood goes back to work.
#pragma once

#include "service/due_list.h"

namespace service {

// What never waits and is not well, a sign, and what stands on the overdue list.
bool is_seen_to_before_work(const Point& point);

}  // namespace service
