#include "service/day_alone.h"

#include <algorithm>
#include <tuple>

#include "visits/crew_days.h"
#include "visits/opening.h"
#include "visits/trip_stays.h"
#include "visits/trips.h"
#include "visits/visits_made.h"
#include "visits/wanted.h"

namespace service {
namespace {

class Nearest {
 public:
  Nearest(const Fleet& fleet, const Site& site, int work) : fleet_(fleet), site_(site), work_(work) {}

  // `wanted`: of a call; empty: at any time.
  void add(const CrewDay& day, const std::vector<ClockSpan>& wanted = {}) {
    const auto trip = visits::trip_of(fleet_, *day.crew, site_);
    const auto open = visits::opening_on(fleet_, site_, day.on);
    const auto both = wanted.empty() ? open : visits::in_both(open, wanted);
    if (!trip || both.empty()) return;
    visits::trip::TripHours hours = visits::trip::hours_of(day, *trip, both);
    const int longest = visits::trip::longest_stay(hours);
    DayAlone one;
    one.crew = day.crew;
    one.on = day.on;
    one.work = work_;
    one.set_up = trip->set_up_minutes;
    one.meal = hours.meal;
    one.drive = trip->drive_minutes();
    one.away = hours.back - hours.leaves;
    if (hours.duty) one.away = std::min(one.away, *hours.duty);
    one.open = open;
    one.wanted = wanted;
    for (const ClockSpan& span : both) one.longest_span = std::max(one.longest_span, span.to - span.from);
    const int but_for_gate = visits::trip::longest_stay(visits::trip::without_gate(hours));
    hours.meal = 0;
    one.but_for_meal = visits::trip::longest_stay(hours) >= work_;
    // Where nobody can be there for so long, it is the rest of his day that tells.
    const bool by_gate = work_ + one.set_up > one.longest_span;
    const auto rank = std::tuple(one.but_for_meal, by_gate ? but_for_gate : longest, but_for_gate);
    if (nearest_ && rank <= rank_) return;
    nearest_ = std::move(one);
    rank_ = rank;
  }

  std::optional<DayAlone> take() { return std::move(nearest_); }

 private:
  const Fleet& fleet_;
  const Site& site_;
  int work_;
  std::optional<DayAlone> nearest_;
  std::tuple<bool, int, int> rank_;
};

}  // namespace

std::optional<DayAlone> nearest_day_alone(const Week& week, std::size_t visit) {
  const Visit& of = week.visits[visit];
  Nearest nearest(*week.fleet, *of.site, of.work_minutes);
  for (std::size_t d = 0; d < week.crew_days.size(); ++d) {
    if (!of.options[d].possible) continue;
    nearest.add(week.crew_days[d], of.call == nullptr ? std::vector<ClockSpan>{} : of.call->between);
  }
  return nearest.take();
}

std::optional<DayAlone> nearest_day_alone(const VisitsPlan& plan, const NotPossible& out) {
  const Point& point = *out.point;
  const Fleet& fleet = *plan.list->fleet;
  const Site& site = *fleet.site(point.machine->site);
  WeekAsk days{plan.from, days_between(plan.from, plan.to) + 1};
  days.without = plan.without;
  const Day earliest = std::max(plan.from, visits::not_before(*plan.list, point));
  Nearest nearest(fleet, site, visits::minutes_of(point).value_or(0));
  for (const CrewDay& day : visits::crew_days_of(fleet, days)) {
    const auto& left = point.machine->left;
    if (day.on < earliest || (left && day.on >= *left) || !visits::can(*day.crew, visits::needs_of(point))) continue;
    nearest.add(day);
  }
  return nearest.take();
}

}  // namespace service
