// The plan of visits: every site by itself, every group of its work by itself.
#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <set>
#include <tuple>

#include "service/visits.h"
#include "visits/crew_days.h"
#include "visits/trip_visits.h"
#include "visits/trip_wanted.h"
#include "visits/visits_made.h"

namespace service {
namespace visits::trip {
namespace {

bool holds_whole_sites(const DueList& list) {
  std::set<std::string_view> held;
  std::set<std::string_view> others;
  for (const Machine& machine : list.fleet->machines) {
    if (!machine.site.empty()) (list.scope.holds(machine.key) ? held : others).insert(machine.site);
  }
  return std::none_of(held.begin(), held.end(), [&](std::string_view site) { return others.contains(site); });
}

void insist_on_span(const DueList& list, Day to) {
  if (to < list.as_of) {
    throw Failure(
        FailureKind::usage,
        Diagnostic{"no-span", fmt::format("the visits would end on {}, before {}", to_text(to), to_text(list.as_of)),
                   "ask about days that are to come"});
  }
  if (list.within >= to && holds_whole_sites(list)) return;
  throw Failure(FailureKind::internal,
                Diagnostic{"list-too-short", "the due list does not hold all that visits are made of",
                           "make it of the whole fleet or of whole sites, to the last day at least"});
}

// A true bound on the unrounded cost, in whole pence.
Money rounded_down(Cost value) { return {static_cast<std::int64_t>(value / one_penny)}; }

// No plan for these groups of a site costs less, but for what goes nowhere: any trip may do all that may be done on its
// day, and costs what the cheapest does that any of them could send.
Cost least_together(const std::vector<Group>& groups, const std::vector<std::vector<int>>& nowhere) {
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
  for (std::size_t g = 0; g < groups.size(); ++g) {
    for (std::size_t i = 0; i < groups[g].points.size(); ++i) {
      if (std::find(nowhere[g].begin(), nowhere[g].end(), static_cast<int>(i)) != nowhere[g].end()) continue;
      const TripPoint& point = groups[g].points[i];
      const Window window = *window_of(point, groups[g].days);
      PathUnit unit{number_of(groups[g], window.first), number_of(groups[g], window.last), {}};
      for (const auto& [on, trip] : trips) unit.costs.push_back(point.cost.compared(on));
      problem.units.push_back(std::move(unit));
    }
  }
  return problem.units.empty() ? 0 : shortest_path(problem).value;
}

class Planning {
 public:
  explicit Planning(VisitsPlan& plan) : plan_(plan), fleet_(*plan.list->fleet) {}

  void add_site(SiteWork work) {
    for (NotPossible& one : work.not_possible) plan_.not_possible.push_back(std::move(one));
    Money total;
    Money bound;
    std::vector<std::vector<int>> nowhere;
    for (const Group& group : work.groups) {
      const Planned planned = add_group(group);
      total = total + planned.total;
      bound = bound + planned.bound;
      nowhere.push_back(planned.nowhere);
    }
    // Groups might share trips.
    if (work.groups.size() > 1) bound = std::min(total, rounded_down(least_together(work.groups, nowhere)));
    plan_.bound = plan_.bound + bound;
  }

  void finish() {
    plan_.total = plan_.trips + plan_.early + plan_.late;
    plan_.exact = plan_.bound == plan_.total;
    std::stable_sort(plan_.visits.begin(), plan_.visits.end(), [](const SiteVisit& a, const SiteVisit& b) {
      return std::tie(a.on, a.site, a.crew) < std::tie(b.on, b.site, b.crew);  // both stand in the order of the file
    });
    for (const Point& point : plan_.list->points) {
      if (std::find(no_time_.begin(), no_time_.end(), &point) != no_time_.end()) {
        plan_.no_time.push_back(name_of(point));
      }
    }
  }

 private:
  struct Planned {
    Money total;
    Money bound;
    std::vector<int> nowhere;  // points of the group
  };

  Planned add_group(const Group& group) {
    const Units units = units_of(fleet_, group);
    const PathPlan path = shortest_path(units.problem);
    const Packed cheapest = packed(fleet_, group, units, path.day_of);
    const Packed on_own_days = packed(fleet_, group, units, units.own);
    const Sums sums = sums_of(group, cheapest);
    const Sums own = sums_of(group, on_own_days);
    plan_.on_own_days.total = plan_.on_own_days.total + own.total();
    plan_.on_own_days.trips = plan_.on_own_days.trips + own.trips;
    plan_.on_own_days.visits += on_own_days.trips.size();
    // Where days had to be split, or by what is rounded, even that may turn out cheaper.
    const bool keep_own =
        std::tuple(on_own_days.nowhere.size(), own.total()) < std::tuple(cheapest.nowhere.size(), sums.total());
    take(group, units, keep_own ? units.own : path.day_of, keep_own ? on_own_days : cheapest, keep_own ? own : sums);
    Planned planned{keep_own ? own.total() : sums.total(), {}, (keep_own ? on_own_days : cheapest).nowhere};
    const bool best = cheapest.as_asked && cheapest.nowhere.empty();
    const Cost least = planned.nowhere.empty() ? path.value : least_together({group}, {planned.nowhere});
    planned.bound = best ? planned.total : std::min(planned.total, rounded_down(least));
    return planned;
  }

  void take(const Group& group, const Units& units, const std::vector<int>& day_of, const Packed& trips,
            const Sums& sums) {
    for (const PackedTrip& trip : trips.trips) {
      plan_.visits.push_back(visit_of(*plan_.list, group, units, day_of, trip));
      for (const Point* point : done_alone(fleet_, group, trip.points)) {
        if (!minutes_of(*point)) no_time_.push_back(point);
      }
    }
    for (const int point : trips.nowhere) {
      plan_.not_possible.push_back(
          {group.points[static_cast<std::size_t>(point)].point, PutOffReason::unreachable, {}, true});
    }
    plan_.trips = plan_.trips + sums.trips;
    plan_.early = plan_.early + sums.early;
    plan_.late = plan_.late + sums.late;
  }

  VisitsPlan& plan_;
  const Fleet& fleet_;
  std::vector<const Point*> no_time_;
};

}  // namespace
}  // namespace visits::trip

VisitsPlan plan_visits(std::shared_ptr<const DueList> list, const VisitsAsk& ask) {
  using namespace visits::trip;
  insist_on_span(*list, ask.to);
  VisitsPlan plan;
  plan.as_of = list->as_of;
  plan.from = list->as_of;
  plan.to = ask.to;
  plan.list = std::move(list);
  const Fleet& fleet = *plan.list->fleet;
  WeekAsk days{plan.from, days_between(plan.from, plan.to) + 1};
  days.without = ask.without;
  const auto crew_days = visits::crew_days_of(fleet, days);
  Planning planning(plan);
  for (auto& points : wanted_by_site(plan, crew_days)) {
    planning.add_site(groups_of(fleet, crew_days, std::move(points)));
  }
  planning.finish();
  return plan;
}

}  // namespace service
