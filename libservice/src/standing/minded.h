// Which points somebody sees to before a machine that stood goes back to work.
#pragma once

#include <optional>

#include "service/due_list.h"

namespace service {

// A listed sign of it, that nobody has found good since.
bool sign_was_seen(const Point& point);

// What never waits and is not well, a sign, and what stands on the overdue list.
bool is_seen_to_before_work(const Point& point);

// Under which heading of that list it stands where its machine is in use and nobody put it off; none: it is not there.
std::optional<OverdueHeading> overdue_heading_of(const Point& point);

}  // namespace service
