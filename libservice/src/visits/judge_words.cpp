#include "visits/judge_words.h"

#include <fmt/format.h>

#include <cstdlib>

namespace service::visits {
namespace {

constexpr int hour = 60;
constexpr int whole_day = 24 * hour;

}  // namespace

std::string clock_words(int minute) {
  if (minute < 0) return clock_words(minute + whole_day) + " the day before";
  if (minute > whole_day) return clock_words(minute - whole_day) + " the next day";
  return fmt::format("{:02}:{:02}", minute / hour, minute % hour);
}

std::string duration_words(int minutes) {
  if (minutes < hour) return fmt::format("{} min", minutes);
  if (minutes % hour == 0) return fmt::format("{} h", minutes / hour);
  return fmt::format("{} h {} min", minutes / hour, minutes % hour);
}

std::string money_words(Money money) {
  const auto hundredths = money.hundredths;
  return fmt::format("{}{}.{:02}", hundredths < 0 ? "-" : "", std::abs(hundredths / 100), std::abs(hundredths % 100));
}

std::string km_words(int tenths) {
  return fmt::format("{}{}.{} km", tenths < 0 ? "-" : "", std::abs(tenths / 10), std::abs(tenths % 10));
}

std::string span_words(const std::vector<ClockSpan>& spans) {
  std::vector<std::string> each;
  for (const ClockSpan& span : spans) each.push_back(clock_words(span.from) + '-' + clock_words(span.to));
  return listed(each, "at no time");
}

std::string listed(const std::vector<std::string>& names, std::string_view otherwise) {
  if (names.empty()) return std::string(otherwise);
  std::string text = names.front();
  for (std::size_t i = 1; i < names.size(); ++i) {
    text += i + 1 == names.size() ? " and " : ", ";
    text += names[i];
  }
  return text;
}

}  // namespace service::visits
