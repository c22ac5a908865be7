// Points that are not due this week and are done along with a visit that is made anyway.
#include <algorithm>

#include "visits/crew_days.h"
#include "visits/trips.h"
#include "visits/visits_made.h"
#include "visits/week_parts.h"

namespace service::visits {
namespace {

bool covers(const Needs& has, const Needs& wanted) { return both(has, wanted) == has; }

// The least life that is given up on a day on which the visit can be made.
std::optional<Money> least_given_up(const Week& week, std::size_t visit, const PointWorth& worth) {
  std::optional<Money> least;
  for (std::size_t d = 0; d < week.crew_days.size(); ++d) {
    if (!week.visits[visit].options[d].possible) continue;
    const Money cost = waiting_cost(worth, week.as_of, week.crew_days[d].on);
    if (!least || cost < *least) least = cost;
  }
  return least;
}

void join(Week& week, std::size_t number, const Point& point, Money share, Worths& worths) {
  const auto given_up = least_given_up(week, number, worths.of(point));
  if (!given_up || *given_up >= share) return;
  const auto fits = fits_alone(week, number);
  const Visit visit = week.visits[number];
  Visit& joined = week.visits[number];
  joined.points.push_back(&point);
  joined.joined.push_back(&point);
  reckon_work(*week.fleet, joined);
  fill_options(week, joined, worths);
  if (fits_alone(week, number) != fits) joined = visit;
}

}  // namespace

void join_points(Week& week, const std::vector<const Point*>& may_join, Worths& worths) {
  for (const Point* point : may_join) {
    const auto of_machine = [&](const auto& points) {
      return static_cast<std::size_t>(std::count_if(
          points.begin(), points.end(), [&](const Point* other) { return other->machine == point->machine; }));
    };
    const auto visit = std::find_if(week.visits.begin(), week.visits.end(), [&](const Visit& one) {
      return one.call == nullptr && one.machine == point->machine && covers(needs_of(one), needs_of(*point));
    });
    if (visit == week.visits.end()) continue;
    std::size_t points = of_machine(may_join);
    for (const Visit& one : week.visits) {
      if (one.call != nullptr || one.machine != point->machine) continue;
      points += one.points.size() - one.joined.size();
    }
    const Money share = later_trip_share(*week.fleet, cheapest_trip(*week.fleet, week.crew_days, *visit->site), points);
    join(week, static_cast<std::size_t>(visit - week.visits.begin()), *point, share, worths);
  }
}

}  // namespace service::visits
