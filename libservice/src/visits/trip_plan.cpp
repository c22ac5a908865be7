// The plan of visits: every site by itself.
#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <tuple>

#include "service/visits.h"
#include "visits/crew_days.h"
#include "visits/trip_crews.h"
#include "visits/trip_safety_left.h"
#include "visits/trip_visits.h"
#include "visits/trip_wanted.h"
#include "visits/trip_work.h"
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

class Planning {
 public:
  explicit Planning(VisitsPlan& plan) : plan_(plan), fleet_(*plan.list->fleet) {}

  void add_site(const std::vector<CrewDay>& crew_days, const std::vector<TripPoint>& points) {
    SiteWork work = groups_of(fleet_, crew_days, points, plan_.to);
    for (NotPossible& one : work.not_possible) plan_.not_possible.push_back(std::move(one));
    if (work.groups.empty()) return;
    const SitePlans plans = plan_site_by_any(fleet_, crew_days, points, work);
    take(plans.best);
    plan_.bound = plan_.bound + plans.bound;
    plan_.on_own_days.total = plan_.on_own_days.total + plans.on_own_days.sums.total();
    plan_.on_own_days.trips = plan_.on_own_days.trips + plans.on_own_days.sums.trips;
    plan_.on_own_days.visits += plans.on_own_days.visits();
    plan_.on_own_days.behind = plan_.on_own_days.behind || plans.own_days_behind;
    if (plans.crews_tried && (!plan_.crews_tried || plans.crews_tried->at_home < plan_.crews_tried->at_home)) {
      plan_.crews_tried = plans.crews_tried;
    }
  }

  void finish() {
    plan_.total = plan_.trips + plan_.early + plan_.late;
    plan_.exact = plan_.bound == plan_.total;
    std::stable_sort(plan_.visits.begin(), plan_.visits.end(), comes_before);
    std::vector<SiteVisit*> all;
    for (SiteVisit& visit : plan_.visits) all.push_back(&visit);
    fill_loads(all);
    fill_safety_left(plan_);
    for (const Point& point : plan_.list->points) {
      if (std::find(no_time_.begin(), no_time_.end(), &point) != no_time_.end()) {
        plan_.no_time.push_back(name_of(point));
      }
    }
  }

 private:
  void take(const SitePlan& site) {
    for (SiteVisit& visit : visits_of(*plan_.list, site)) plan_.visits.push_back(std::move(visit));
    for (const auto& trip : trips_of(*site.model, site.places)) {
      for (const Point* point : done_alone(fleet_, points_of(*site.model, trip))) {
        if (!minutes_of(*point)) no_time_.push_back(point);
      }
    }
    for (const Point* point : site.nowhere()) {
      NotPossible out;
      out.point = point;
      out.reason = PutOffReason::unreachable;
      out.days_full = true;
      plan_.not_possible.push_back(std::move(out));
    }
    plan_.trips = plan_.trips + site.sums.trips;
    plan_.early = plan_.early + site.sums.early;
    plan_.late = plan_.late + site.sums.late;
  }

  VisitsPlan& plan_;
  const Fleet& fleet_;
  std::vector<const Point*> no_time_;
};

}  // namespace
}  // namespace visits::trip

bool comes_before(const SiteVisit& a, const SiteVisit& b) {
  return std::tie(a.on, a.site, a.crew) < std::tie(b.on, b.site, b.crew);  // they stand in the order of the file
}

VisitsPlan plan_visits(std::shared_ptr<const DueList> list, const VisitsAsk& ask) {
  using namespace visits::trip;
  insist_on_span(*list, ask.to);
  VisitsPlan plan;
  plan.as_of = list->as_of;
  plan.from = list->as_of;
  plan.to = ask.to;
  plan.without = ask.without;
  plan.list = std::move(list);
  const Fleet& fleet = *plan.list->fleet;
  WeekAsk days{plan.from, days_between(plan.from, plan.to) + 1};
  days.without = ask.without;
  const auto crew_days = visits::crew_days_of(fleet, days);
  Planning planning(plan);
  for (const auto& points : wanted_by_site(plan, crew_days)) planning.add_site(crew_days, points);
  planning.finish();
  return plan;
}

}  // namespace service
