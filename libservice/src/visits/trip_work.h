// How long the work of a trip takes.
#pragma once

#include <vector>

#include "service/rounds.h"

namespace service::visits::trip {

// Of these points: those that are done by themselves, and the minutes of all that.
std::vector<const Point*> done_alone(const Fleet& fleet, const std::vector<const Point*>& points);
int work_minutes(const std::vector<const Point*>& alone);

// The minutes at each of their machines.
std::vector<int> stays_of(const Fleet& fleet, const std::vector<const Point*>& points);

}  // namespace service::visits::trip
