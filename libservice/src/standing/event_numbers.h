// Which numbers a day has for its calendars.
#pragma once

#include <cstdint>

#include "service/base.h"

namespace service {

inline constexpr std::int64_t numbers_a_day = 50'000;
inline constexpr std::int64_t highest_sequence = 2'147'483'647;  // RFC 5545, 3.3.8

// The lowest that a calendar of this day may have: higher than any of the day before.
std::int64_t first_sequence_of(Day day);

}  // namespace service
