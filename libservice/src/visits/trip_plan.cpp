// The plan of visits: every site by itself, every group of its work by itself.
#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "service/first.h"
#include "service/visits.h"
#include "visits/crew_days.h"
#include "visits/trip_visits.h"
#include "visits/trip_wanted.h"
#include "visits/visits_made.h"

namespace service {
namespace visits::trip {
namespace {

void insist_on_span(const DueList& list, Day to) {
  if (to < list.as_of) {
    throw Failure(
        FailureKind::usage,
        Diagnostic{"no-span", fmt::format("the visits would end on {}, before {}", to_text(to), to_text(list.as_of)),
                   "ask about days that are to come"});
  }
  if (list.within >= to && (!list.scope.machines || !list.scope.site.empty())) return;
  throw Failure(FailureKind::internal,
                Diagnostic{"list-too-short", "the due list does not hold all that visits are made of",
                           "make it of the whole fleet or of a site, to the last day at least"});
}

// A true bound on the unrounded cost, in whole pence.
Money rounded_down(Cost value) { return {static_cast<std::int64_t>(value / one_penny)}; }

class Planning {
 public:
  explicit Planning(VisitsPlan& plan) : plan_(plan), fleet_(*plan.list->fleet) {}

  void add_site(SiteWork work) {
    for (NotPossible& one : work.not_possible) plan_.not_possible.push_back(std::move(one));
    for (const Group& group : work.groups) add_group(group);
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
  void add_group(const Group& group) {
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
    const Money total = keep_own ? own.total() : sums.total();
    const bool best = cheapest.as_asked && cheapest.nowhere.empty();
    plan_.bound = plan_.bound + (best ? total : std::min(total, rounded_down(path.value)));
  }

  void take(const Group& group, const Units& units, const std::vector<int>& day_of, const Packed& trips,
            const Sums& sums) {
    for (const PackedTrip& trip : trips.trips) {
      plan_.visits.push_back(visit_of(fleet_, group, units, day_of, trip));
      for (const Point* point : done_alone(fleet_, group, trip.points)) {
        if (!minutes_of(*point)) no_time_.push_back(point);
      }
    }
    for (const int point : trips.nowhere) {
      plan_.not_possible.push_back(
          {group.points[static_cast<std::size_t>(point)].point, PutOffReason::unreachable, {}});
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

bool VisitsPlan::needs_doing() const {
  const bool undecided = std::any_of(not_planned.begin(), not_planned.end(), [](const NotPlanned& one) {
    return one.reason == NotPlannedReason::no_site || one.reason == NotPlannedReason::no_way;
  });
  const bool out_of_use = std::any_of(list->not_in_use.begin(), list->not_in_use.end(),
                                      [](const MachineUse& one) { return one.state.kind == UseKind::out_of_use; });
  return undecided || out_of_use || !not_possible.empty() || !no_record.empty() || !unknown.empty() ||
         !list->gaps.empty() || !list->seen.empty();
}

void keep_first(VisitsPlan& plan, std::size_t first) { plan.left_off += keep_first(plan.visits, first); }

}  // namespace service
