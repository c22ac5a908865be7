// What differs from the plan that was kept.
#include <fmt/format.h>

#include <algorithm>

#include "render/rounds/words.h"
#include "render/shared/words.h"
#include "service/ring_ups.h"

namespace cli {
namespace {

using service::cleaned;
using service::Point;

std::string where_words(const RoundsList& list, const std::optional<std::pair<std::string, service::Day>>& at) {
  return at ? fmt::format("{}, {}", crew_named(list, at->first), day_words(at->second)) : "not this week";
}

// Of a visit that was made in part before this week: what is left of it.
std::string rest_words(const RoundsList& list, const service::PlanChange& change) {
  const service::Week& week = list.week();
  if (std::find(week.done.begin(), week.done.end(), change.visit) == week.done.end()) return "";
  std::vector<std::string> tasks;
  for (const Visit& visit : week.visits) {
    if (visit.name != change.visit) continue;
    for (const Point* point : visit.points) tasks.push_back(task_of(*point));
  }
  std::vector<std::string> not_in_book;
  for (const service::NotInBook& one : week.not_in_book) {
    if (one.visit == change.visit) not_in_book.push_back(task_of(*one.point));
  }
  std::string text = tasks.empty() ? "" : fmt::format(", for the rest: {}", listed(tasks, "and"));
  if (!not_in_book.empty()) {
    text += fmt::format(", without what is taken as done and not in the book: {}", listed(not_in_book, "and"));
  }
  return text;
}

std::string gone_words(const RoundsList& list, const service::PlanChange& change) {
  if (change.not_planned) return fmt::format("not planned: {}", short_reason_words(*change.not_planned));
  if (change.unlisted)
    return "not among the machines and calls of the fleet: done or called off, or its name is mistyped";
  if (!change.not_due) return "no longer wanted";
  return fmt::format("not due by {}, the last day on which somebody works", day_words(list.week().crew_days.back().on));
}

std::string moved_words(const RoundsList& list, const service::PlanChange& change) {
  const char* const promised = change.promised ? ", promised" : "";
  if (change.moves_within_day()) {
    return fmt::format("was {} at {}{}; now at {}", where_words(list, change.was), clock_words(*change.was_starts),
                       promised, clock_words(*change.is_starts));
  }
  const std::string is =
      (change.wanted ? where_words(list, change.is) : gone_words(list, change)) + rest_words(list, change);
  return change.unheard_of ? "new, " + is
                           : fmt::format("was {}{}; now {}", where_words(list, change.was), promised, is);
}

std::string whom_words(const std::vector<const service::Site*>& sites, const std::string& contact) {
  if (sites.empty()) return "nothing says whom to ring up";
  std::vector<std::string> names;
  for (const service::Site* site : sites) names.push_back(site_words(*site));
  return contact.empty() ? listed(names, "and") + " has no contact to ring up"
                         : fmt::format("ring up {}: {}", listed(names, "and"), cleaned(contact));
}

}  // namespace

std::string change_words(const RoundsList& list, const service::PlanChange& change) {
  const bool known = change.site != nullptr;
  return fmt::format("{}; {}", moved_words(list, change),
                     known ? whom_words({change.site}, change.site->contact) : whom_words({}, ""));
}

std::vector<ChangedFor> changes_by_whom(const RoundsList& list) {
  std::vector<ChangedFor> all;
  for (const service::RingUp& call : ring_ups(list.plan)) {
    ChangedFor& one = all.emplace_back(ChangedFor{whom_words(call.sites, call.contact), {}});
    for (const std::size_t number : call.changes) {
      const service::PlanChange& change = list.plan.changes[number];
      const std::string at = call.sites.size() > 1 ? fmt::format(" ({})", cleaned(change.site->key)) : "";
      one.changes.emplace_back(cleaned(change.visit) + at, moved_words(list, change));
    }
  }
  return all;
}

}  // namespace cli
