// Civil days. Dates are checked by shape and by calendar here and nowhere else: the date library's own parser accepts
// leftovers behind a date, and its month arithmetic on time points is not calendar arithmetic.
#include <date/date.h>

#include <algorithm>

#include "service/base.h"

namespace service {
namespace {

constexpr int first_year = 1900;
constexpr int last_year = 2199;

bool digits(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

int number(std::string_view text) {
  int value = 0;
  for (const char c : text) value = value * 10 + (c - '0');
  return value;
}

// The last digits of a value, as many as there is room for.
void put_digits(unsigned value, char* begin, char* end) {
  while (end != begin) {
    *--end = static_cast<char>('0' + value % 10);
    value /= 10;
  }
}

const char* const shape_problem = "is not a date like 2026-03-01";

}  // namespace

std::string to_text(Day day) {
  const date::year_month_day ymd{day};
  std::string text = "0000-00-00";
  char* const at = text.data();
  put_digits(static_cast<unsigned>(static_cast<int>(ymd.year())), at, at + 4);
  put_digits(static_cast<unsigned>(ymd.month()), at + 5, at + 7);
  put_digits(static_cast<unsigned>(ymd.day()), at + 8, at + 10);
  return text;
}

Day last_of_month(Day day) {
  const date::year_month_day ymd{day};
  return date::sys_days{ymd.year() / ymd.month() / date::last};
}

Day add_months(Day anchor, int months) {
  const date::year_month_day ymd{anchor};
  const date::year_month target = ymd.year() / ymd.month() + date::months{months};
  const date::year_month_day_last end{target.year() / target.month() / date::last};
  return date::sys_days{target / std::min(ymd.day(), end.day())};
}

std::string to_text(const DaySpan& span) {
  if (span.whole_day()) return to_text(span.first);
  const date::year_month_day from{span.first};
  const std::string text = to_text(span.first);
  if (span.last == last_of_month(span.first) && from.day() == date::day{1}) return text.substr(0, 7);
  if (span.first == day_of(static_cast<int>(from.year()), 1, 1) &&
      span.last == day_of(static_cast<int>(from.year()), 12, 31)) {
    return text.substr(0, 4);
  }
  return text + ".." + to_text(span.last);
}

Day MonthDay::in_year(int year) const {
  const date::year_month month_of_year{date::year{year}, date::month{month}};
  const date::year_month_day_last end{month_of_year / date::last};
  return date::sys_days{month_of_year / std::min(date::day{day}, end.day())};
}

Parsed<DaySpan> parse_day_span(std::string_view text) {
  if (text.empty()) return {{}, "is empty"};
  const bool year_only = text.size() == 4;
  const bool year_month = text.size() == 7;
  if (!year_only && !year_month && text.size() != 10) return {{}, shape_problem};
  if (!digits(text.substr(0, 4))) return {{}, shape_problem};
  const int year = number(text.substr(0, 4));
  if (year < first_year || year > last_year) return {{}, "is not within the years 1900 to 2199"};
  if (year_only) return {DaySpan{day_of(year, 1, 1), day_of(year, 12, 31)}, {}};
  if (text[4] != '-' || !digits(text.substr(5, 2))) return {{}, shape_problem};
  const int month = number(text.substr(5, 2));
  if (month < 1 || month > 12) return {{}, "has no such month"};
  const Day first = day_of(year, static_cast<unsigned>(month), 1);
  if (year_month) return {DaySpan{first, last_of_month(first)}, {}};
  if (text[7] != '-' || !digits(text.substr(8, 2))) return {{}, shape_problem};
  const date::year_month_day ymd{date::year{year}, date::month{static_cast<unsigned>(month)},
                                 date::day{static_cast<unsigned>(number(text.substr(8, 2)))}};
  if (!ymd.ok()) return {{}, "is not a day of the calendar"};
  return {DaySpan{Day{date::sys_days{ymd}}}, {}};
}

Parsed<Day> parse_day(std::string_view text) {
  const auto span = parse_day_span(text);
  if (!span) return {{}, span.problem};
  if (text.size() != 10) return {{}, "must be a whole date like 2026-03-01"};
  return {span.value->first, {}};
}

Parsed<MonthDay> parse_month_day(std::string_view text) {
  const char* const problem = "is not a day of the year like 08-01";
  if (text.size() != 5 || text[2] != '-' || !digits(text.substr(0, 2)) || !digits(text.substr(3))) return {{}, problem};
  const MonthDay read{static_cast<unsigned>(number(text.substr(0, 2))), static_cast<unsigned>(number(text.substr(3)))};
  const date::month_day in_leap_year{date::month{read.month}, date::day{read.day}};
  if (!in_leap_year.ok()) return {{}, problem};
  return {read, {}};
}

Parsed<std::chrono::minutes> parse_minutes(std::string_view text) {
  const char* const problem = "is not a length of time like 50 min, 1 h or 1 h 30 min";
  const auto take_number = [&text]() -> std::optional<int> {
    std::size_t n = 0;
    while (n < text.size() && text[n] >= '0' && text[n] <= '9') ++n;
    if (n == 0 || n > 5) return std::nullopt;
    const int value = number(text.substr(0, n));
    text.remove_prefix(n);
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    return value;
  };
  const auto take_word = [&text](std::string_view word) {
    if (!text.starts_with(word)) return false;
    text.remove_prefix(word.size());
    return true;
  };
  if (text.empty()) return {{}, "is empty"};
  auto count = take_number();
  if (!count) return {{}, problem};
  std::chrono::minutes total{0};
  if (take_word("h")) {
    total += std::chrono::hours{*count};
    if (text.empty()) return {total, {}};
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    count = take_number();
    if (!count || *count > 59) return {{}, problem};
  }
  if (!take_word("min") || !text.empty()) return {{}, problem};
  return {total + std::chrono::minutes{*count}, {}};
}

Parsed<int> parse_span_days(std::string_view text) {
  if (text.size() < 2 || text.size() > 6 || !digits(text.substr(0, text.size() - 1))) {
    return {{}, "is not a span like 30d or 6w"};
  }
  const int count = number(text.substr(0, text.size() - 1));
  if (text.back() == 'd') return {count, {}};
  if (text.back() == 'w') return {count * 7, {}};
  return {{}, "is not a span like 30d or 6w"};
}

Parsed<Day> parse_horizon(std::string_view text, Day from) {
  if (text.size() >= 2 && text.size() <= 5 && text.back() == 'm' && digits(text.substr(0, text.size() - 1))) {
    const int months = number(text.substr(0, text.size() - 1));
    if (months > 1200) return {{}, "is more than 1200 months"};
    return {add_months(from, months), {}};
  }
  const auto days = parse_span_days(text);
  if (!days) return {{}, "is not a span like 30d, 6w or 3m"};
  if (*days > 36525) return {{}, "is more than 100 years"};
  return {from + std::chrono::days{*days}, {}};
}

}  // namespace service
