// On which crew-days a visit is possible, in which hours, and at what cost of waiting.
#include <algorithm>

#include "visits/crew_days.h"
#include "visits/opening.h"
#include "visits/trips.h"
#include "visits/visits_made.h"
#include "visits/wanted.h"
#include "visits/week_parts.h"

namespace service::visits {
namespace {

// On which its work may be done at all.
std::optional<std::pair<Day, Day>> days_of(const Week& week, const Visit& visit) {
  Day first = week.from;
  Day last = week.to;
  if (visit.call != nullptr) {
    first = std::max(first, visit.call->from.value_or(first));
    last = std::min(last, visit.call->by.value_or(last));
  }
  if (visit.machine != nullptr && visit.machine->left) {
    last = std::min(last, *visit.machine->left - std::chrono::days{1});
  }
  for (const Point* point : visit.points) first = std::max(first, not_before(*week.list, *point));
  if (first > last) return std::nullopt;
  return std::pair(first, last);
}

std::vector<ClockSpan> spans_on(const Week& week, const Visit& visit, Day day) {
  if (!visit.days || day < visit.days->first || day > visit.days->second) return {};
  const auto open = opening_on(*week.fleet, *visit.site, day);
  return visit.call == nullptr || visit.call->between.empty() ? open : in_both(open, visit.call->between);
}

Money waiting_on(const Week& week, const Visit& visit, Day day, Worths& worths) {
  Money cost = visit.call != nullptr ? waiting_cost(*visit.call, week.as_of, day) : Money{};
  for (const Point* point : visit.points) cost = cost + waiting_cost(worths.of(*point), week.as_of, day);
  return cost;
}

}  // namespace

const PointWorth& Worths::of(const Point& point) {
  const auto found = worths_.find(&point);
  if (found != worths_.end()) return found->second;
  return worths_.emplace(&point, worth_of(list_, point, no_price_)).first->second;
}

void fill_options(const Week& week, Visit& visit, Worths& worths) {
  visit.days = days_of(week, visit);
  visit.options.clear();
  for (const CrewDay& day : week.crew_days) {
    VisitOption option;
    option.waiting = waiting_on(week, visit, day.on, worths);
    option.spans = spans_on(week, visit, day.on);
    option.possible = !option.spans.empty() && can(*day.crew, needs_of(visit));
    visit.options.push_back(std::move(option));
  }
}

void fill_put_off(Week& week, Worths& worths) {
  for (Visit& visit : week.visits) {
    const auto at_site = std::count_if(week.visits.begin(), week.visits.end(),
                                       [&](const Visit& other) { return other.site == visit.site; });
    const auto trip = cheapest_trip(*week.fleet, week.crew_days, *visit.site);
    visit.put_off = waiting_on(week, visit, week.later, worths) +
                    later_trip_share(*week.fleet, trip, static_cast<std::size_t>(at_site));
  }
}

}  // namespace service::visits
