// What stays out of use, and what is taken as done and not in the book.
#include <fmt/format.h>

#include <algorithm>

#include "render/rounds/words.h"
#include "render/shared/resources_words.h"
#include "render/shared/safety_left_words.h"
#include "render/shared/words.h"

namespace cli {
namespace {

using service::cleaned;
using service::NotThisWeek;
using service::Point;
using service::Round;

}  // namespace

std::string keep_out_words(const RoundsList& list, const Visit& visit) {
  if (!keep_out_of_use(visit)) return "";
  const bool unmended = std::any_of(visit.points.begin(), visit.points.end(), [&](const Point* point) {
    return is_safety(*point) && leaves_unmended(*list.week().list, *point);
  });
  return fmt::format("safety: not this week, keep {} out of use until {}",
                     visit.machine == nullptr ? "what it is about" : "it", unmended ? "mended" : "done");
}

std::vector<std::string> keep_out_lines(const RoundsList& list, const Round& round, const service::RoundStop& stop) {
  std::vector<std::pair<std::string, std::vector<std::string>>> said;  // and of which tasks
  for (const Point* point : keep_out_of_use(visit_of(list, stop.visit), day_of(list, round))) {
    const std::string words = keep_out_words(*list.week().list, *point);
    auto same = std::find_if(said.begin(), said.end(), [&](const auto& one) { return one.first == words; });
    if (same == said.end()) same = said.insert(said.end(), {words, {}});
    same->second.push_back(task_of(*point));
  }
  std::vector<std::string> lines;
  if (const Visit& visit = visit_of(list, stop.visit); keep_out_until_made(visit)) {
    lines.push_back(fmt::format("safety: keep {} out of use until done",
                                visit.machine == nullptr ? "what it is about" : "the machine"));
  }
  for (const auto& [words, tasks] : said) lines.push_back(fmt::format("{}: {}", listed(tasks, "and"), words));
  for (std::string& each : safety_left_lines(safety_left(list.plan, round, stop), list.week().as_of, not_this_week)) {
    lines.push_back(std::move(each));
  }
  return lines;
}

std::string kept_out_words(const RoundsList& list) {
  std::vector<std::string> items;
  for (const Round& round : list.plan.rounds) {
    const service::Day on = day_of(list, round);
    for (const service::RoundStop& stop : round.stops) {
      const Visit& visit = visit_of(list, stop.visit);
      if (keep_out_until_made(visit)) items.push_back(fmt::format("{} ({})", called(visit), day_words(on)));
      std::vector<std::string> tasks;
      std::optional<service::Day> from;
      for (const Point* point : keep_out_of_use(visit, on)) {
        tasks.push_back(task_of(*point));
        from = std::min(*point->due_on, from.value_or(*point->due_on));
      }
      if (tasks.empty()) continue;
      items.push_back(fmt::format("{} ({}{}, {})", called(visit),
                                  *from > list.week().as_of ? fmt::format("from {} on, ", to_text(*from)) : "",
                                  listed(tasks, "and"), day_words(on)));
    }
  }
  for (const NotThisWeek& out : list.plan.not_this_week) {
    const Visit& visit = visit_of(list, out.visit);
    if (keep_out_of_use(visit)) items.push_back(fmt::format("{} (not this week)", called(visit)));
  }
  for (const service::NotInBook& one : list.week().not_in_book) {
    if (!keep_out_of_use(one, list.week().to)) continue;
    items.push_back(fmt::format(
        "{} ({}{}, taken as done, not in the book)", cleaned(one.point->machine->key),
        *one.point->due_on > list.week().as_of ? fmt::format("from {} on, ", to_text(*one.point->due_on)) : "",
        task_of(*one.point)));
  }
  for (const service::CallStillListed& one : list.week().calls_still_listed) {
    if (!keep_out_of_use(one)) continue;
    items.push_back(fmt::format("call {} (taken as done, still among the calls)", cleaned(one.call->key)));
  }
  return items.empty() ? ""
                       : fmt::format("Keep out of use until done or mended, for safety: {}.", fmt::join(items, "; "));
}

namespace {

// `1 starter-battery and 3 L coolant`: of what is taken as done; empty where nothing was short.
std::string short_then_words(const RoundsList& list, const service::NotInBook& one) {
  std::vector<std::string> parts;
  for (const service::PartLack& lack : short_then(list, one)) {
    parts.push_back(fmt::format("{} {}", quantity(lack.short_by, lack.unit), cleaned(lack.key)));
  }
  return parts.empty() ? "" : listed(parts, "and");
}

// Of all that is taken as done.
std::string perhaps_not_whole_words(const RoundsList& list) {
  std::vector<std::string> items;
  for (const service::NotInBook& one : list.week().not_in_book) {
    const std::string parts = short_then_words(list, one);
    if (parts.empty()) continue;
    items.push_back(fmt::format("{} {} ({})", cleaned(one.point->machine->key), task_of(*one.point), parts));
  }
  return items.empty() ? ""
                       : fmt::format(
                             " Perhaps not done whole, for so much was not in stock for it: {}: ask whoever "
                             "was there, and write down what was done.",
                             listed(items, "and"));
}

}  // namespace

std::string not_in_book_words(const RoundsList& list, const service::NotInBook& one, bool keep_out) {
  const std::string parts = short_then_words(list, one);
  return fmt::format("{}: taken as done on {}, and not in the book{}{}", task_of(*one.point), day_words(one.on),
                     parts.empty()
                         ? ""
                         : fmt::format("; perhaps not whole, for {} {} not in stock for it: write down what was done",
                                       parts, short_then(list, one).size() == 1 ? "was" : "were"),
                     keep_out ? ": keep the machine out of use until it is written down or done" : "");
}

std::string still_listed_words(const service::CallStillListed& one) {
  return fmt::format("taken as done on {}, and still among the calls{}: take it out of the fleet file once it is done",
                     day_words(one.on), keep_out_of_use(one) ? ": keep what it is about out of use until then" : "");
}

std::string still_listed_words(const RoundsList& list) {
  std::vector<std::string> items;
  for (const service::CallStillListed& one : list.week().calls_still_listed) {
    items.push_back(fmt::format("call {}{}", cleaned(one.call->key), one.call->safety ? " (safety)" : ""));
  }
  return items.empty() ? ""
                       : fmt::format(
                             "Taken as done by the kept plan, and still among the calls of the fleet file: {}: "
                             "take out what is done.",
                             listed(items, "and"));
}

std::string not_in_book_words(const RoundsList& list) {
  std::vector<std::string> items;
  bool keep_out = false;
  for (const service::NotInBook& one : list.week().not_in_book) {
    items.push_back(fmt::format("{} {}{}", cleaned(one.point->machine->key), task_of(*one.point),
                                is_safety(*one.point) ? " (safety)" : ""));
    keep_out = keep_out || keep_out_of_use(one, list.week().to);
  }
  if (items.empty()) return "";
  return fmt::format("Taken as done by the kept plan, and not in the book: {}: {}.", listed(items, "and"),
                     keep_out ? "what is for safety keeps its machine out of use until it is written down or done"
                              : "write down what is done") +
         perhaps_not_whole_words(list);
}

}  // namespace cli
