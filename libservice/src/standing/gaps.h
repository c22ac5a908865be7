// What is not known of a machine, so that an empty list is never taken for an all-clear.
#pragma once

#include <vector>

#include "service/due_list.h"
#include "standing/view.h"

namespace service {

std::vector<Gap> gaps_of(const MachineView& view, const std::vector<Point>& points);

// Of the whole fleet: a clock that is behind the book, facts about machines that the fleet does not list.
std::vector<Gap> fleet_gaps(const Snapshot& snapshot);

// No machine of the scope is there on that day.
Gap gap_of_no_machine(Day as_of);

}  // namespace service
