#include "render/shared/safety_left_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "render/shared/trip_words.h"
#include "render/shared/words.h"

namespace cli {

using service::SafetyLeft;
using service::WhyLeft;

namespace {

std::string what_of(const SafetyLeft& left) {
  return left.call != nullptr ? "call " + service::cleaned(left.call->key) : task_of(left.point);
}

std::string by_words(const SafetyLeft& left) {
  return left.crew == nullptr ? "" : fmt::format(" ({})", crew_words(*left.crew));
}

std::string why_words(const SafetyLeft& left, std::string_view not_made) {
  switch (left.why) {
    case WhyLeft::not_made:
      return std::string(not_made);
    case WhyLeft::later:
      return fmt::format("not before {}{}", day_words(*left.on), by_words(left));
    case WhyLeft::not_planned:
      return "not planned, " + std::string(short_reason_words(*left.reason));
    case WhyLeft::no_record:
      return "no record: nobody knows whether it is due";
    case WhyLeft::not_in_book:
      return fmt::format("taken as done on {}{}, and {}", day_words(*left.on), by_words(left),
                         left.call != nullptr ? "still among the calls" : "not in the book");
  }
  return "";
}

std::string said_of(const SafetyLeft& left, service::Day as_of, std::string_view not_made) {
  std::string why = why_words(left, not_made);
  if (!keep_out_of_use(left)) return why;
  const std::string from = left.due_on && *left.due_on > as_of ? fmt::format("from {} on ", to_text(*left.due_on)) : "";
  const bool call_open = left.why == WhyLeft::not_in_book && left.call != nullptr;
  const char* const until = call_open                          ? "it is done and out of the calls"
                            : left.why == WhyLeft::not_in_book ? "it is written down or done"
                            : left.unmended                    ? "it is mended"
                                                               : "it is done";
  return fmt::format("{}: {}keep the machine out of use until {}", why, from, until);
}

}  // namespace

std::vector<std::string> safety_left_lines(const std::vector<SafetyLeft>& left, service::Day as_of,
                                           std::string_view not_made) {
  std::vector<std::pair<std::string, std::vector<std::string>>> said;  // and of what
  for (const SafetyLeft& one : left) {
    const std::string words = said_of(one, as_of, not_made);
    auto same = std::find_if(said.begin(), said.end(), [&](const auto& other) { return other.first == words; });
    if (same == said.end()) same = said.insert(said.end(), {words, {}});
    same->second.push_back(what_of(one));
  }
  std::vector<std::string> lines;
  for (const auto& [words, what] : said) lines.push_back(fmt::format("{}: {}", listed(what, "and"), words));
  return lines;
}

std::string safety_left_words(const SafetyLeft& left, service::Day as_of, std::string_view not_made) {
  return fmt::format("{}: {}", what_of(left), said_of(left, as_of, not_made));
}

}  // namespace cli
