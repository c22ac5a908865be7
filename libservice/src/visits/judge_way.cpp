// What of a round follows from the order of its visits.
#include <algorithm>

#include "visits/judge_parts.h"

namespace service::visits {
namespace {

template <class Figure>
int sum_of(const Way& way, int begin, Figure figure) {
  for (const WayStop& stop : way.stops) begin += figure(stop);
  return begin;
}

}  // namespace

int Way::drive_minutes() const {
  return sum_of(*this, home->minutes, [](const WayStop& stop) { return stop.leg->minutes; });
}

int Way::set_up_minutes() const {
  return sum_of(*this, 0, [](const WayStop& stop) { return stop.set_up_minutes; });
}

int Way::work_minutes() const {
  return sum_of(*this, 0, [](const WayStop& stop) { return stop.work_minutes; });
}

int Way::tenths_of_km() const {
  return sum_of(*this, home->tenths_of_km, [](const WayStop& stop) { return stop.leg->tenths_of_km; });
}

Way way_of(const Week& week, const Crew* crew, const std::vector<std::optional<std::size_t>>& visits) {
  const Fleet& fleet = *week.fleet;
  Way way;
  way.whole = true;
  const Site* at = crew != nullptr ? fleet.site(crew->start) : nullptr;
  for (const auto& number : visits) {
    WayStop stop;
    stop.visit = number;
    stop.from = at;
    const Visit* visit = number ? &week.visits[*number] : nullptr;
    if (visit != nullptr) {
      stop.work_minutes = visit->work_minutes;
      if (crew != nullptr && at != nullptr) {
        stop.leg = leg_of(fleet, *crew, *at, *visit->site);
        if (at->key != visit->site->key) stop.set_up_minutes = static_cast<int>(visit->site->set_up.count());
      }
    }
    way.whole = way.whole && stop.leg;
    way.stops.push_back(stop);
    at = visit != nullptr ? visit->site : nullptr;
  }
  way.last = at;
  if (crew != nullptr && at != nullptr) way.home = leg_of(fleet, *crew, *at, *fleet.site(crew->end));
  way.whole = way.whole && way.home;
  return way;
}

Money travel_cost(const Week& week, const Crew& crew, const Way& way) {
  Money cost = cost_of(*week.fleet, crew, *way.home);
  for (const WayStop& stop : way.stops) {
    const Site& site = *week.visits[*stop.visit].site;
    cost = cost + cost_of(*week.fleet, crew, *stop.leg);
    if (site.key != stop.from->key) cost = cost + set_up_cost(*week.fleet, crew, site);
  }
  return cost;
}

TimedRound timed(const Week& week, std::size_t crew_day, const Way& way) {
  const CrewDay& day = week.crew_days[crew_day];
  TimedRound round;
  for (const WayStop& stop : way.stops) {
    round.stops.push_back({stop.leg->minutes, stop.stay(), &week.visits[*stop.visit].options[crew_day].spans, {}, {}});
  }
  round.home = way.home->minutes;
  round.from = day.hours.from;
  round.to = day.hours.to;
  if (day.duty) round.duty = static_cast<int>(day.duty->count());
  round.meal = static_cast<int>(day.crew->meal.count());
  return round;
}

bool fits(const Week& week, std::size_t crew_day, const std::vector<std::size_t>& visits) {
  const Crew* crew = week.crew_days[crew_day].crew;
  const bool able = std::all_of(visits.begin(), visits.end(),
                                [&](std::size_t visit) { return lacks(*crew, week.visits[visit]).empty(); });
  const Way way = way_of(week, crew, {visits.begin(), visits.end()});
  return able && way.whole && is_possible(timed(week, crew_day, way));
}

}  // namespace service::visits
