#include "fleet/week_hours.h"

#include <fmt/format.h>

#include <algorithm>

namespace service::fleet {
namespace {

constexpr std::array<std::string_view, 7> weekdays = {"monday", "tuesday",  "wednesday", "thursday",
                                                      "friday", "saturday", "sunday"};
constexpr Wanted a_clock_span{code::bad_clock_span, "a span of the day", R"(write it like "08:00-12:00")"};
constexpr int minutes_a_day = 24 * 60;

std::optional<int> parse_clock(std::string_view text) {
  const auto digit = [&](std::size_t i) { return text[i] >= '0' && text[i] <= '9'; };
  if (text.size() != 5 || text[2] != ':' || !digit(0) || !digit(1) || !digit(3) || !digit(4)) return std::nullopt;
  const int hours = (text[0] - '0') * 10 + (text[1] - '0');
  const int minutes = (text[3] - '0') * 10 + (text[4] - '0');
  const int total = hours * 60 + minutes;
  return minutes < 60 && total <= minutes_a_day ? std::optional(total) : std::nullopt;
}

Parsed<ClockSpan> parse_clock_span(std::string_view text) {
  const std::size_t dash = text.find('-');
  const auto from = parse_clock(text.substr(0, dash));
  const auto to = dash == std::string_view::npos ? std::nullopt : parse_clock(text.substr(dash + 1));
  if (!from || !to) return {{}, "is not two times with a hyphen between"};
  if (*from >= *to) return {{}, "ends before it begins"};
  return {ClockSpan{*from, *to}, {}};
}

// The first and last weekday of `mon-fri` or `sat`; a span may run over Sunday.
std::optional<std::pair<int, int>> parse_weekdays(std::string_view text) {
  const std::size_t dash = text.find('-');
  const auto from = parse_weekday(text.substr(0, dash));
  const auto to = dash == std::string_view::npos ? from : parse_weekday(text.substr(dash + 1));
  if (!from || !to) return std::nullopt;
  return std::pair(static_cast<int>(*from), static_cast<int>(*to));
}

}  // namespace

std::optional<Weekday> parse_weekday(std::string_view text) {
  for (std::size_t i = 0; i < weekdays.size(); ++i) {
    if (text == weekdays[i] || text == weekdays[i].substr(0, 3)) return static_cast<Weekday>(i);
  }
  return std::nullopt;
}

std::vector<ClockSpan> read_clock_spans(const Reader& reader, const Field& field) {
  std::vector<ClockSpan> spans;
  const auto read_one = [&](const Field& one) {
    const auto span = reader.parsed(one, parse_clock_span, a_clock_span);
    if (!span) return;
    const bool overlaps = std::any_of(spans.begin(), spans.end(), [&](const ClockSpan& other) {
      return span->from < other.to && other.from < span->to;
    });
    if (overlaps) {
      reader.error(code::overlapping_hours, reader.spot(one),
                   fmt::format("{} overlaps another span of the same day", in_quotes(one.value->text)), "join the two");
    } else {
      spans.push_back(*span);
    }
  };
  if (field.value->kind == Node::Kind::list) {
    for (const Field& item : reader.list(field, a_clock_span.hint)) read_one(item);
  } else {
    read_one(field);
  }
  std::sort(spans.begin(), spans.end(), [](const ClockSpan& a, const ClockSpan& b) { return a.from < b.from; });
  return spans;
}

WeekHours read_week_hours(const Reader& reader, const Field& field) {
  WeekHours week;
  const auto fields = reader.map(field, R"(write {mon-thu: "07:30-16:00", fri: "07:30-13:00"})");
  if (!fields) return week;
  for (const Field& one : *fields) {
    const auto days = parse_weekdays(one.name);
    if (!days) {
      reader.error(code::bad_weekday, reader.spot(one.key),
                   fmt::format("{} is no weekday and no span of weekdays", in_quotes(one.name)),
                   "write mon, or mon-fri");
      continue;
    }
    const std::vector<ClockSpan> spans = read_clock_spans(reader, one);
    const int count = (days->second - days->first + 7) % 7 + 1;
    for (int i = 0; i < count; ++i) {
      const auto weekday = static_cast<Weekday>((days->first + i) % 7);
      if (week.emplace(weekday, spans).second) continue;
      reader.error(code::repeated_value, reader.spot(one.key),
                   fmt::format("{} has its hours already", weekdays[static_cast<std::size_t>(weekday)]),
                   "name each weekday once");
    }
  }
  return week;
}

}  // namespace service::fleet
