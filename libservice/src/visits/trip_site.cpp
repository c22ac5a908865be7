#include "visits/trip_site.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <numeric>
#include <set>
#include <tuple>

namespace service::visits::trip {
namespace {

// Of so many groups all orders are tried: more are planned in the order in which they stand.
constexpr std::size_t few_groups = 4;

// A true bound on the unrounded cost, in whole pence.
Money rounded_down(Cost value) { return {static_cast<std::int64_t>(value / one_penny)}; }

// No plan for these groups costs less, but for what goes nowhere: any trip may do all that may be done on its day, and
// costs what the cheapest does that any of them could send.
Cost least_together(const std::vector<Group>& groups, const std::vector<const Point*>& nowhere) {
  std::map<Day, Cost> trips;
  for (const Group& group : groups) {
    for (const TripDay& day : group.days) {
      const Cost trip = one_penny * day.cheapest().trip.cost.hundredths;
      const auto [place, is_new] = trips.emplace(day.on, trip);
      if (!is_new) place->second = std::min(place->second, trip);
    }
  }
  PathProblem problem;
  for (const auto& [on, trip] : trips) problem.trips.push_back(trip);
  const auto number_of = [&](const Group& group, int day) {
    const auto place = trips.find(group.days[static_cast<std::size_t>(day)].on);
    return static_cast<int>(std::distance(trips.begin(), place));
  };
  for (const Group& group : groups) {
    for (const TripPoint& point : group.points) {
      if (std::find(nowhere.begin(), nowhere.end(), point.point) != nowhere.end()) continue;
      const Window window = *window_of(point, group.days);
      PathUnit unit{number_of(group, window.first), number_of(group, window.last), {}};
      for (const auto& [on, trip] : trips) unit.costs.push_back(point.cost.compared(on));
      problem.units.push_back(std::move(unit));
    }
  }
  return problem.units.empty() ? 0 : shortest_path(problem).value;
}

// Minutes of work on the trips that are made.
using Booked = std::map<std::pair<Day, const Crew*>, int>;

// A crew that is there with time for some of it comes first and costs nothing more; one that has none is the last.
void take_off(std::vector<TripDay>& days, const Booked& booked, int least_minutes) {
  for (TripDay& day : days) {
    std::set<const Crew*> full;
    for (CrewTrip& crew : day.crews) {
      const auto made = booked.find({day.on, crew.crew});
      if (made == booked.end()) continue;
      crew.room -= made->second;
      if (crew.room < least_minutes) {
        full.insert(crew.crew);
      } else {
        crew.trip.cost = {};
      }
    }
    std::stable_sort(day.crews.begin(), day.crews.end(), [&](const CrewTrip& a, const CrewTrip& b) {
      return std::tuple(full.contains(a.crew), a.trip.cost) < std::tuple(full.contains(b.crew), b.trip.cost);
    });
  }
}

class GroupsPlanning {
 public:
  explicit GroupsPlanning(const Fleet& fleet) : fleet_(fleet) {}

  // On its own day each, or on the cheapest days.
  SitePlan in_order(const std::vector<Group>& groups, const std::vector<std::size_t>& order, bool own_days) const {
    SitePlan plan;
    Booked booked;
    for (const std::size_t index : order) {
      GroupPlan part{groups[index], groups[index], {}, {}, {}};
      if (!booked.empty()) make_room(part, booked, plan.nowhere);
      if (part.whole.points.empty()) continue;
      place(part, own_days, plan, booked);
      plan.groups.push_back(std::move(part));
    }
    return plan;
  }

 private:
  static void make_room(GroupPlan& part, const Booked& booked, std::vector<const Point*>& nowhere) {
    int least = part.left.points.front().minutes;
    for (const TripPoint& point : part.left.points) least = std::min(least, point.minutes);
    take_off(part.left.days, booked, least);
    std::erase_if(part.left.points, [&](const TripPoint& point) {
      if (window_of(point, part.left.days)) return false;
      nowhere.push_back(point.point);
      return true;
    });
    part.whole.points = part.left.points;
  }

  void place(GroupPlan& part, bool own_days, SitePlan& plan, Booked& booked) const {
    part.units = units_of(fleet_, part.left);
    const PathPlan path = shortest_path(part.units.problem);
    part.day_of = own_days ? part.units.own : path.day_of;
    const Packed made = packed(fleet_, part.left, part.units, part.day_of);
    part.trips = made.trips;
    plan.least += path.value;
    plan.as_asked = plan.as_asked && made.as_asked;
    for (const int point : made.nowhere) plan.nowhere.push_back(part.whole.points[slot(point)].point);
    for (const PackedTrip& trip : made.trips) {
      const TripDay& day = part.left.days[slot(trip.day)];
      const CrewTrip& crew = day.crews[slot(trip.crew)];
      plan.sums.trips = plan.sums.trips + crew.trip.cost;
      booked[{day.on, crew.crew}] += work_minutes(done_alone(fleet_, part.left, trip.points));
      for (const int number : trip.points) {
        const TripPoint& point = part.whole.points[slot(number)];
        plan.sums.early = plan.sums.early + point.cost.early(day.on);
        plan.sums.late = plan.sums.late + point.cost.late(day.on);
        if (!never_waits(*point.point)) continue;
        const Day own = part.whole.days[slot(window_of(point, part.whole.days)->own)].on;
        plan.late_days += std::max(0, days_between(own, day.on));
      }
    }
  }

  const Fleet& fleet_;
};

// Smaller is better: what never waits and goes nowhere, or waits; what else goes nowhere; money.
auto rank_of(const SitePlan& plan) {
  const auto unsafe =
      std::count_if(plan.nowhere.begin(), plan.nowhere.end(), [](const Point* point) { return never_waits(*point); });
  return std::tuple(unsafe, plan.late_days, plan.nowhere.size(), plan.sums.total());
}

SitePlan best_order(const GroupsPlanning& planning, const std::vector<Group>& groups, bool own_days) {
  std::vector<std::size_t> order(groups.size());
  std::iota(order.begin(), order.end(), 0U);
  SitePlan best = planning.in_order(groups, order, own_days);
  if (groups.size() > few_groups) return best;
  while (std::next_permutation(order.begin(), order.end())) {
    SitePlan other = planning.in_order(groups, order, own_days);
    if (rank_of(other) < rank_of(best)) best = std::move(other);
  }
  return best;
}

}  // namespace

std::size_t SitePlan::visits() const {
  std::set<std::pair<Day, const Crew*>> made;
  for (const GroupPlan& part : groups) {
    for (const PackedTrip& trip : part.trips) {
      const TripDay& day = part.left.days[slot(trip.day)];
      made.insert({day.on, day.crews[slot(trip.crew)].crew});
    }
  }
  return made.size();
}

SitePlans plan_site(const Fleet& fleet, const std::vector<Group>& groups) {
  const GroupsPlanning planning(fleet);
  SitePlans plans{best_order(planning, groups, false), best_order(planning, groups, true), {}};
  const bool proven = groups.size() == 1 && plans.best.as_asked && plans.best.nowhere.empty();
  const Cost path = plans.best.least;
  const bool whole = groups.size() == 1 && plans.best.nowhere.empty();
  // Where days had to be split, or by what is rounded, even that may turn out cheaper.
  if (rank_of(plans.on_own_days) < rank_of(plans.best)) plans.best = plans.on_own_days;
  const Money total = plans.best.sums.total();
  const Cost least = whole ? path : least_together(groups, plans.best.nowhere);
  plans.bound = proven ? total : std::min(total, rounded_down(least));
  return plans;
}

}  // namespace service::visits::trip
