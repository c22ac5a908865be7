// Which points somebody sees to before a machine that stood goes back to work.
#pragma once

#include "service/due_list.h"

namespace service {

// A listed sign of it, that nobody has found good since.
bool sign_was_seen(const Point& point);

// What never waits and is not well, a sign, and what stands on the overdue list.
bool is_seen_to_before_work(const Point& point);

}  // namespace service
