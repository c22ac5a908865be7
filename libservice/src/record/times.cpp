#include "record/times.h"

#include <fmt/format.h>

namespace service::record {
namespace {

constexpr std::int64_t a_day = 86'400'000;

// Two or three digits, or -1.
int number(std::string_view digits) {
  int value = 0;
  for (const char c : digits) {
    if (c < '0' || c > '9') return -1;
    value = value * 10 + (c - '0');
  }
  return value;
}

}  // namespace

std::string time_text(std::int64_t milliseconds) {
  const std::int64_t days = milliseconds / a_day;
  const std::int64_t rest = milliseconds % a_day;
  return fmt::format("{}T{:02}:{:02}:{:02}.{:03}Z", to_text(Day{std::chrono::days{static_cast<int>(days)}}),
                     rest / 3'600'000, rest / 60'000 % 60, rest / 1000 % 60, rest % 1000);
}

Parsed<std::int64_t> parse_time(std::string_view text) {
  Parsed<std::int64_t> no{{}, "is not a time like 2026-01-01T00:00:00.000Z"};
  if (text.size() != 24) return no;
  if (text[10] != 'T' || text[13] != ':' || text[16] != ':' || text[19] != '.' || text[23] != 'Z') return no;
  const auto day = parse_day(text.substr(0, 10));
  const int hour = number(text.substr(11, 2));
  const int minute = number(text.substr(14, 2));
  const int second = number(text.substr(17, 2));
  const int thousandth = number(text.substr(20, 3));
  if (!day || *day < Day{} || hour < 0 || hour > 23 || minute < 0 || minute > 59 || second < 0 || second > 59 ||
      thousandth < 0) {
    return no;
  }
  const std::int64_t seconds = (hour * 60 + minute) * 60 + second;
  return {(*day).time_since_epoch().count() * a_day + seconds * 1000 + thousandth, {}};
}

}  // namespace service::record
