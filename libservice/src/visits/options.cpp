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

// Whether its work may be done on that day at all.
bool allowed_on(const DueList& list, const Visit& visit, Day day) {
  if (visit.call != nullptr &&
      ((visit.call->from && day < *visit.call->from) || (visit.call->by && day > *visit.call->by))) {
    return false;
  }
  if (visit.machine != nullptr && visit.machine->left && day >= *visit.machine->left) return false;
  return std::all_of(visit.points.begin(), visit.points.end(),
                     [&](const Point* point) { return day >= not_before(list, *point); });
}

std::vector<ClockSpan> spans_on(const Week& week, const Visit& visit, Day day) {
  if (!allowed_on(*week.list, visit, day)) return {};
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

std::vector<VisitOption> options_of(const Week& week, const Visit& visit, Worths& worths) {
  std::vector<VisitOption> options;
  for (const CrewDay& day : week.crew_days) {
    VisitOption option;
    option.waiting = waiting_on(week, visit, day.on, worths);
    option.spans = spans_on(week, visit, day.on);
    option.possible = !option.spans.empty() && can(*day.crew, needs_of(visit));
    options.push_back(std::move(option));
  }
  return options;
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
