// Days and values as people type them: on a command line, on a telephone. Files are read more strictly.
#pragma once

#include <string_view>

#include "service/days.h"
#include "service/quantities.h"

#pragma GCC visibility push(default)

namespace service {

// A day as `parse_day_span` takes it, and also
//
//   today, yesterday   in any case
//   -3d, -2w           so long before today
//   15.06.2026         with dots the day always comes first
//   15/06/2026         with slashes or hyphens where one number is over 12, or both are the same: else it could be two
//                      days, and the problem names both
//
// Years have four digits. `06.2026` is a month.
Parsed<DaySpan> typed_day_span(std::string_view text, Day today);
Parsed<Day> typed_day(std::string_view text, Day today);  // a whole day

// Until when, in days: a day as above, or as far ahead: `+14d`, `+2w`, `+3m`.
Parsed<Day> typed_until(std::string_view text, Day today);

// Whether it takes `today` to read it.
bool counts_from_today(std::string_view text);

// Also with one comma and one or two digits after it: `2383,7`. With three it could be a thousand.
Parsed<Amount> typed_amount(std::string_view text);
Parsed<Measure> typed_measure(std::string_view text);

// The forms, for an advice: "write a day as 2026-03-01, ...".
inline constexpr std::string_view forms_of_days = "write a day as 2026-03-01, 15.06.2026, today, yesterday or -3d";
inline constexpr std::string_view forms_of_numbers = "write digits with a point, such as 1250 or 1250.5";

}  // namespace service

#pragma GCC visibility pop
