// When somebody can be at a site.
#pragma once

#include <vector>

#include "service/fleet.h"

namespace service::visits {

Weekday weekday_of(Day day);

// The spans of a day in which a site is open; none where it is closed. In order.
std::vector<ClockSpan> opening_on(const Fleet& fleet, const Site& site, Day day);

// What lies in one of both, as far as it lasts any time. Both in order.
std::vector<ClockSpan> in_both(const std::vector<ClockSpan>& a, const std::vector<ClockSpan>& b);

}  // namespace service::visits
