// Civil days, without time and zone, and how they are read and written.
#pragma once

#include <chrono>
#include <string>
#include <string_view>

#include "service/parsed.h"

#pragma GCC visibility push(default)

namespace service {

using Day = std::chrono::sys_days;

constexpr Day day_of(int year, unsigned month, unsigned day) {
  return std::chrono::year{year} / std::chrono::month{month} / std::chrono::day{day};
}

constexpr int days_between(Day from, Day to) { return static_cast<int>((to - from).count()); }

std::string to_text(Day day);  // 2026-03-01

// Same day of the month, that many months on (or back), clamped to the month's last day:
// 31 Jan + 1 month = 28 or 29 Feb. Never chain it: 31 Jan + 2 months = 31 Mar, but (31 Jan + 1) + 1 = 28 Mar.
Day add_months(Day anchor, int months);

Day last_of_month(Day day);

// ISO 8601 reduced precision. `2009` is the span 2009-01-01 .. 2009-12-31. Due arithmetic uses `first`, the cautious
// end.
struct DaySpan {
  Day first{};
  Day last{};

  constexpr DaySpan() = default;
  constexpr DaySpan(Day day) : first(day), last(day) {}  // NOLINT(google-explicit-constructor): a day is a span of one
  constexpr DaySpan(Day from, Day to) : first(from), last(to) {}
  constexpr bool whole_day() const { return first == last; }
  friend constexpr bool operator==(const DaySpan&, const DaySpan&) = default;
};

std::string to_text(const DaySpan& span);  // as short as it was written: 2009, 2009-05, 2009-05-17

// A day of every year, for seasons. 29 February is 28 February in common years.
struct MonthDay {
  unsigned month = 1;
  unsigned day = 1;
  Day in_year(int year) const;
  friend constexpr bool operator==(const MonthDay&, const MonthDay&) = default;
};

// --- Strict readers, see parsed.h ---

Parsed<Day> parse_day(std::string_view text);                       // 2026-03-01, years 1900 to 2199
Parsed<DaySpan> parse_day_span(std::string_view text);              // also 2026-03 and 2026
Parsed<MonthDay> parse_month_day(std::string_view text);            // 08-01
Parsed<std::chrono::minutes> parse_minutes(std::string_view text);  // 50 min, 1 h, 1 h 30 min
Parsed<int> parse_span_days(std::string_view text);  // 30d, 6w (whole days); months need an anchor, see parse_horizon

// A horizon seen from a day: 30d, 6w, 3m. The result is the last day inside it.
Parsed<Day> parse_horizon(std::string_view text, Day from);

}  // namespace service

#pragma GCC visibility pop
