#include "visits/trip_elsewhere.h"

#include <algorithm>

namespace service::visits::trip {
namespace {

bool among(const std::vector<int>& points, int point) {
  return std::find(points.begin(), points.end(), point) != points.end();
}

}  // namespace

std::vector<int> Elsewhere::moved_with(int point) const {
  return with_included(model_, point, trips_[slot(places_[slot(point)])]);
}

Cost Elsewhere::waiting(const std::vector<int>& points, int at) const {
  Cost cost = 0;
  for (const int point : points) cost += model_.costs[slot(point)][slot(at)];
  return cost;
}

// What includes another is done no earlier, nor that day on a trip of its own.
bool Elsewhere::in_order(int point, int to, const std::vector<int>& along) const {
  const Day on = model_.slots[slot(to)].on;
  const auto after = [&](int inner, int outer) {
    const int a = inner == point ? to : places_[slot(inner)];
    const int b = outer == point ? to : places_[slot(outer)];
    if (a == nowhere || b == nowhere || a == b || among(along, inner == point ? outer : inner)) return false;
    return (inner == point ? on : model_.slots[slot(a)].on) >= (outer == point ? on : model_.slots[slot(b)].on);
  };
  for (const int inner : model_.includes[slot(point)]) {
    if (after(inner, point)) return false;
  }
  return std::none_of(model_.included_in[slot(point)].begin(), model_.included_in[slot(point)].end(),
                      [&](int outer) { return among(model_.includes[slot(outer)], point) && after(point, outer); });
}

bool Elsewhere::allowed(const std::vector<int>& points, int to) const {
  return std::all_of(points.begin(), points.end(), [&](int point) {
    return model_.may[slot(point)][slot(to)] &&
           model_.late_days(point, to) <= model_.late_days(point, places_[slot(point)]) && in_order(point, to, points);
  });
}

bool Elsewhere::has_time_at(const std::vector<int>& points, int to) const {
  std::vector<int> all = trips_[slot(to)];
  all.insert(all.end(), points.begin(), points.end());
  return has_time(model_, to, all);
}

// None: it has time.
std::optional<TimeLimit> Elsewhere::limit_at(const std::vector<int>& points, int to) const {
  if (has_time_at(points, to)) return std::nullopt;
  const CrewTrip& crew = model_.slots[slot(to)].crew;
  CrewTrip open{crew.crew, crew.trip, without_gate(crew.hours), 0, 0, {}};
  std::vector<int> all = trips_[slot(to)];
  all.insert(all.end(), points.begin(), points.end());
  return trip::has_time(*model_.fleet, open, points_of(model_, all)) ? TimeLimit::opening : TimeLimit::hours;
}

std::optional<OtherTrip> Elsewhere::next_best(int point) const {
  const auto points = moved_with(point);
  std::optional<int> best;
  Cost least = 0;
  for (int to = 0; to < static_cast<int>(model_.slots.size()); ++to) {
    if (to == places_[slot(point)] || !allowed(points, to)) continue;
    const Cost cost = waiting(points, to) + (trips_[slot(to)].empty() ? model_.slots[slot(to)].cost : 0);
    if ((best && cost >= least) || !has_time_at(points, to)) continue;
    best = to;
    least = cost;
  }
  if (!best) return std::nullopt;
  const TripSlot& at = model_.slots[slot(*best)];
  OtherTrip next{at.crew.crew, at.on, !trips_[slot(*best)].empty(), {}};
  for (const int one : points) {
    const SpanCost& cost = model_.points[slot(one)].cost;
    next.cost = next.cost + cost.early(at.on) + cost.late(at.on);
  }
  if (!next.made) next.cost = next.cost + at.crew.trip.cost;
  return next;
}

std::optional<FullDay> Elsewhere::full_day(int point) const {
  const auto points = moved_with(point);
  const int here = places_[slot(point)];
  std::optional<FullDay> full;
  if (model_.late_days(point, here) > 0) {
    const Day own = model_.slots[slot(model_.own[slot(point)])].on;
    full = FullDay{own, TimeLimit::hours};
    for (int to = 0; to < static_cast<int>(model_.slots.size()); ++to) {
      if (model_.slots[slot(to)].on == own && model_.may[slot(point)][slot(to)] &&
          limit_at({point}, to) == TimeLimit::opening) {
        full->by = TimeLimit::opening;
      }
    }
    return full;
  }
  Cost least = waiting(points, here);
  for (int to = 0; to < static_cast<int>(model_.slots.size()); ++to) {
    if (to == here || trips_[slot(to)].empty() || !allowed(points, to) || waiting(points, to) >= least) continue;
    const auto limit = limit_at(points, to);
    if (!limit) continue;
    least = waiting(points, to);
    full = FullDay{model_.slots[slot(to)].on, *limit};
  }
  return full;
}

int Elsewhere::cheapest_at(const std::vector<int>& points) const {
  int best = places_[slot(points.front())];
  Cost least = impossible;
  for (int to = 0; to < static_cast<int>(model_.slots.size()); ++to) {
    if (!std::all_of(points.begin(), points.end(), [&](int one) { return model_.may[slot(one)][slot(to)]; })) continue;
    const Cost cost = waiting(points, to);
    if (cost >= least) continue;
    least = cost;
    best = to;
  }
  return best;
}

Day Elsewhere::likely_day(int point) const {
  const Day alone = model_.slots[slot(cheapest_at({point}))].on;
  std::vector<int> points = moved_with(point);
  std::erase_if(points, [&](int one) { return model_.slots[slot(cheapest_at({one}))].on < alone; });
  return model_.slots[slot(cheapest_at(points))].on;
}

}  // namespace service::visits::trip
