#include "visits/trip_site.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <tuple>

#include "visits/trip_bound.h"
#include "visits/trip_gather.h"
#include "visits/trip_search.h"
#include "visits/trip_start.h"

namespace service::visits::trip {
namespace {

// Of so many groups all orders are tried: more are planned in the order in which they stand.
constexpr std::size_t few_groups = 4;

// A plan that could be cheaper by less than that is proven: money is whole pence.
constexpr Cost hair = one_penny / 100;

// With more services times crew-days than these, it is not asked what fewer crews would do.
constexpr std::size_t most_by_fewer = 20'000;

// A true bound on the unrounded cost, in whole pence.
Money rounded_down(Cost value) { return {static_cast<std::int64_t>(value / one_penny)}; }

// No plan for what has a place costs less: any trip may do all that may be done on its day, and costs what the cheapest
// does that any of it could send.
Cost least_together(const SiteModel& model, const Places& places) {
  const bool in_time = rank_of(model, places).late_days == 0;
  PathProblem problem;
  std::vector<int> day_of;  // of each slot, by number
  for (std::size_t at = 0; at < model.slots.size(); ++at) {
    const bool same = at > 0 && model.slots[at].on == model.slots[at - 1].on;
    if (!same) problem.trips.push_back(model.slots[at].cost);  // the cheapest of that day
    day_of.push_back(static_cast<int>(problem.trips.size()) - 1);
  }
  for (int point = 0; point < static_cast<int>(places.size()); ++point) {
    if (places[slot(point)] == nowhere) continue;
    PathUnit unit{static_cast<int>(problem.trips.size()), -1, std::vector<Cost>(problem.trips.size(), impossible)};
    for (int at = 0; at < static_cast<int>(model.slots.size()); ++at) {
      unit.costs[slot(day_of[slot(at)])] = model.costs[slot(point)][slot(at)];
      if (!model.may[slot(point)][slot(at)] || (in_time && model.late_days(point, at) > 0)) continue;
      unit.first = std::min(unit.first, day_of[slot(at)]);
      unit.last = day_of[slot(at)];
    }
    problem.units.push_back(std::move(unit));
  }
  return problem.units.empty() ? 0 : shortest_path(problem).value;
}

// Whether whoever goes for all of them goes on as many days, and as cheaply, as whoever goes for one.
bool goes_as_cheaply(const SiteModel& model, const Group& group) {
  std::size_t days = 0;
  for (std::size_t at = 0; at < model.slots.size(); ++at) {
    const TripSlot& one = model.slots[at];
    if (at > 0 && one.on == model.slots[at - 1].on) continue;
    if (days == group.days.size() || group.days[days].on != one.on ||
        group.days[days].cheapest().trip.cost != one.crew.trip.cost) {
      return false;
    }
    ++days;
  }
  return days == group.days.size();
}

class SitePlanning {
 public:
  SitePlanning(const Fleet& fleet, const SiteWork& work, const OtherPlans& by_fewer, Asked asked)
      : work_(work),
        by_fewer_(by_fewer),
        asked_(asked),
        model_(std::make_shared<const SiteModel>(model_of(fleet, work))) {}

  SitePlans plan() {
    SitePlans plans = plan_all();
    plans.best = plan_of(gathered(*model_, plans.best.places));
    plans.own_days_behind = is_behind(plans.on_own_days, plans.best);
    return plans;
  }

 private:
  SitePlans plan_all() {
    const Start start = best_order(false);
    const Start own = best_order(true);
    SitePlans plans{plan_of(start.places), plan_of(own.places), {}};
    const bool whole = work_.groups.size() == 1 && rank_of(*model_, start.places).left == 0 &&
                       rank_of(*model_, start.places).unsafe == 0 && goes_as_cheaply(*model_, work_.groups.front());
    if (whole && start.as_asked) {
      take_if_better(plans.best, plans.on_own_days);  // by what is rounded, even that may turn out cheaper
      plans.bound = plans.best.sums.total();
      return plans;
    }
    plans.best = plan_of(improved_from(start.places));
    take_if_better(plans.best, plan_of(improved_from(own.places)));
    take_if_better(plans.best, plans.on_own_days);
    if (!by_fewer_ && asked_ == Asked::plan) return plans;
    fill_bound(plans, whole, start);
    if (!by_fewer_ || (plans.bound == plans.best.sums.total() && is_complete(plans.best)) || !is_searched()) {
      return plans;
    }
    // Where more crews can go, the search may have lost its way among them: it begins again from what fewer would do.
    plans.by_fewer = true;
    const Places before = plans.best.places;
    for (const SitePlan& fewer : by_fewer_()) {
      const Places places = taken_over(fewer);
      take_if_better(plans.best, plan_of(places));
      take_if_better(plans.best, plan_of(improved_from(places)));
    }
    if (asked_ == Asked::plan_and_bound && plans.best.places != before) fill_bound(plans, whole, start);
    return plans;
  }

  // From where it began or ended once, the search ends there again.
  const Places& improved_from(const Places& places) {
    const auto known = improved_.find(places);
    if (known != improved_.end()) return known->second;
    const Improved better = improved(*model_, places);
    if (better.settled) improved_.emplace(better.places, better.places);
    return improved_.emplace(places, better.places).first->second;
  }

  void fill_bound(SitePlans& plans, bool whole, const Start& start) const {
    const Rank rank = rank_of(*model_, plans.best.places);
    const bool all = whole && is_complete(plans.best);
    const Cost path = all ? start.least : least_together(*model_, plans.best.places);
    const Cost least = std::max(path, bound_of(*model_, plans.best.places));
    const Money total = plans.best.sums.total();
    const bool proven = rank.left == 0 && rank.unsafe == 0 && rank.cost < least + hair;
    plans.bound = proven ? total : std::min(total, rounded_down(least));
  }

  // All has a place, what never waits in time.
  bool is_complete(const SitePlan& plan) const {
    const Rank rank = rank_of(*model_, plan.places);
    return rank.left == 0 && rank.unsafe == 0 && rank.late_days == 0;
  }

  bool is_searched() const { return model_->points.size() * model_->slots.size() <= most_by_fewer; }

  // A plan of the same services by some of these crews; what they cannot do has no place.
  Places taken_over(const SitePlan& fewer) const {
    Places places(model_->points.size(), trip::nowhere);
    for (std::size_t i = 0; i < fewer.places.size(); ++i) {
      if (fewer.places[i] == trip::nowhere) continue;
      const TripSlot& was = fewer.model->slots[slot(fewer.places[i])];
      const auto point = std::find_if(model_->points.begin(), model_->points.end(),
                                      [&](const TripPoint& one) { return one.point == fewer.model->points[i].point; });
      const auto at = std::find_if(model_->slots.begin(), model_->slots.end(), [&](const TripSlot& one) {
        return one.on == was.on && one.crew.crew == was.crew.crew;
      });
      places[static_cast<std::size_t>(point - model_->points.begin())] = static_cast<int>(at - model_->slots.begin());
    }
    return places;
  }

  Start best_order(bool own_days) const {
    std::vector<std::size_t> order(work_.groups.size());
    std::iota(order.begin(), order.end(), 0U);
    Start best = start_of(*model_, work_.groups, order, own_days);
    if (work_.groups.size() > few_groups) return best;
    while (std::next_permutation(order.begin(), order.end())) {
      Start other = start_of(*model_, work_.groups, order, own_days);
      if (rank_of(*model_, other.places) < rank_of(*model_, best.places)) best = std::move(other);
    }
    return best;
  }

  SitePlan plan_of(Places places) const {
    SitePlan plan{model_, std::move(places), {}};
    const auto trips = trips_of(*model_, plan.places);
    for (std::size_t at = 0; at < trips.size(); ++at) {
      const TripSlot& one = model_->slots[at];
      if (!trips[at].empty()) plan.sums.trips = plan.sums.trips + one.crew.trip.cost;
      for (const int point : trips[at]) {
        const SpanCost& cost = model_->points[slot(point)].cost;
        plan.sums.early = plan.sums.early + cost.early(one.on);
        plan.sums.late = plan.sums.late + cost.late(one.on);
      }
    }
    return plan;
  }

  // In whole pence, as it is told.
  static auto told_rank(const SitePlan& plan) {
    const Rank rank = rank_of(*plan.model, plan.places);
    Cost left = 0;
    for (std::size_t i = 0; i < plan.places.size(); ++i) {
      if (plan.places[i] == nowhere) left += plan.model->left[i];
    }
    return std::tuple(rank.unsafe, rank.late_days, rank.left, rank.twice, plan.sums.total() + rounded_down(left),
                      rank.cost);
  }

  // Of what is worth more than money.
  static bool is_behind(const SitePlan& plan, const SitePlan& best) {
    Rank of_plan = rank_of(*plan.model, plan.places);
    Rank of_best = rank_of(*best.model, best.places);
    of_plan.cost = of_best.cost = 0;
    return of_best < of_plan;
  }

  static void take_if_better(SitePlan& best, const SitePlan& other) {
    if (told_rank(other) < told_rank(best)) best = other;
  }

  const SiteWork& work_;
  const OtherPlans& by_fewer_;
  Asked asked_;
  std::shared_ptr<const SiteModel> model_;
  std::map<Places, Places> improved_;  // by where the search began
};

}  // namespace

std::size_t SitePlan::visits() const {
  const auto trips = trips_of(*model, places);
  return static_cast<std::size_t>(
      std::count_if(trips.begin(), trips.end(), [](const auto& trip) { return !trip.empty(); }));
}

std::vector<const Point*> SitePlan::nowhere() const {
  std::vector<const Point*> points;
  for (std::size_t i = 0; i < places.size(); ++i) {
    if (places[i] == trip::nowhere) points.push_back(model->points[i].point);
  }
  return points;
}

SitePlans plan_site(const Fleet& fleet, const SiteWork& work, const OtherPlans& by_fewer, Asked asked) {
  return SitePlanning(fleet, work, by_fewer, asked).plan();
}

}  // namespace service::visits::trip
