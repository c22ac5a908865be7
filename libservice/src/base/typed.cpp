// What people type. The forms beyond those of files are put into the form of files, and read by the reader of those.
#include "service/typed.h"

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "service/spreadsheet.h"

namespace service {
namespace {

bool all_digits(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

bool is_word(std::string_view text, std::string_view word) {
  return std::equal(text.begin(), text.end(), word.begin(), word.end(),
                    [](char a, char b) { return (a >= 'A' && a <= 'Z' ? static_cast<char>(a - 'A' + 'a') : a) == b; });
}

bool is_days_back(std::string_view text) {
  return text.size() > 2 && text.front() == '-' && (text.back() == 'd' || text.back() == 'w') &&
         all_digits(text.substr(1, text.size() - 2));
}

// Two or three numbers between equal marks.
struct Marked {
  std::vector<std::string_view> numbers;
  char mark = 0;
};

std::optional<Marked> marked(std::string_view text) {
  Marked found;
  while (true) {
    const std::size_t end = text.find_first_of("./-");
    if (!all_digits(text.substr(0, end))) return std::nullopt;
    found.numbers.push_back(text.substr(0, end));
    if (end == std::string_view::npos) break;
    if (found.mark != 0 && found.mark != text[end]) return std::nullopt;
    found.mark = text[end];
    text.remove_prefix(end + 1);
  }
  if (found.numbers.size() < 2 || found.numbers.size() > 3) return std::nullopt;
  return found;
}

constexpr const char* no_day = "is not a day like 2026-03-01, 15.06.2026, yesterday or -3d";

// Days with the day or the month first.
Parsed<DaySpan> marked_day(std::string_view text, const Marked& parts) {
  auto first = parse_day_span(plain_day(text, {{}, DateOrder::day_first}));
  auto second = parse_day_span(plain_day(text, {{}, DateOrder::month_first}));
  if (parts.mark == '.' && first) return first;
  if (parts.mark != '.' && first && second && *first != *second) {
    return {{}, "could be " + to_text(*first) + " or " + to_text(*second)};
  }
  if (parts.mark != '.' && (first || second)) return first ? first : second;
  const auto year =
      std::find_if(parts.numbers.begin(), parts.numbers.end(), [](auto part) { return part.size() == 4; });
  if (year == parts.numbers.end()) return {{}, "has no year of four digits"};
  return {{}, parts.numbers.size() == 3 ? "is not a day of the calendar" : no_day};
}

// With a point where a comma parts off the decimals; as it is where it cannot.
std::string with_point(std::string_view text) {
  std::string plain(text);
  const std::size_t comma = text.find(',');
  if (comma == std::string_view::npos || comma == 0) return plain;
  const std::string_view decimals = text.substr(comma + 1);
  const std::string_view units = text.substr(text.front() == '-' ? 1 : 0, comma - (text.front() == '-' ? 1 : 0));
  if (all_digits(units) && all_digits(decimals) && decimals.size() <= 2) plain[comma] = '.';
  return plain;
}

// Of `1,250`, what it could be.
std::string comma_problem(std::string_view text, std::string problem) {
  const std::size_t comma = text.find(',');
  if (comma == std::string_view::npos) return problem;
  const std::string units(text.substr(0, comma));
  const std::string decimals(text.substr(comma + 1));
  if (!all_digits(units) || !all_digits(decimals) || decimals.size() != 3) return problem;
  return "could be " + units + decimals + " or " + units + '.' + decimals;
}

}  // namespace

bool counts_from_today(std::string_view text) {
  return is_word(text, "today") || is_word(text, "yesterday") || is_days_back(text);
}

Parsed<DaySpan> typed_day_span(std::string_view text, Day today) {
  if (text.empty()) return {{}, "is empty"};
  if (is_word(text, "today")) return {DaySpan(today), {}};
  if (is_word(text, "yesterday")) return {DaySpan(today - std::chrono::days{1}), {}};
  if (is_days_back(text)) {
    const auto days = parse_span_days(text.substr(1));
    constexpr int most = 36525;
    if (!days || *days > most) return {{}, "is more than 100 years"};
    return {DaySpan(today - std::chrono::days{*days}), {}};
  }
  auto plain = parse_day_span(text);
  if (plain) return plain;
  if (const auto parts = marked(text)) return marked_day(text, *parts);
  return {{}, no_day};
}

Parsed<Day> typed_day(std::string_view text, Day today) {
  auto span = typed_day_span(text, today);
  if (!span) return {{}, std::move(span.problem)};
  if (!span.value->whole_day()) return {{}, "must be a whole date like 2026-03-01"};
  return {span.value->first, {}};
}

Parsed<Day> typed_until(std::string_view text, Day today) {
  if (!text.starts_with('+')) return typed_day(text, today);
  auto day = parse_horizon(text.substr(1), today);
  if (!day) day.problem = "is no day, and not as far ahead as +14d, +2w or +3m say it";
  return day;
}

Parsed<Amount> typed_amount(std::string_view text) {
  auto read = parse_amount(with_point(text));
  if (!read) read.problem = comma_problem(text, std::move(read.problem));
  return read;
}

Parsed<Measure> typed_measure(std::string_view text) {
  auto read = parse_measure(with_point(text));
  if (!read) read.problem = comma_problem(text, std::move(read.problem));
  return read;
}

}  // namespace service
