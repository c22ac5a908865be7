// Which points an answer shows: for whoever writes it, and for whoever makes a list that holds no others.
#pragma once

#include <optional>

#include "service/due_list.h"

namespace service {

// Under which heading the overdue list shows a point of a machine in use that nobody put off. None: it does not.
std::optional<OverdueHeading> overdue_heading_of(const Point& point);

// The due list of people shows it only where later points are asked for.
bool may_be_left_out(const Point& point);

// Whether something is to be found out of it.
bool asks(const Point& point);

}  // namespace service
