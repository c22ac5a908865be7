#include "service/day_alone.h"

#include <algorithm>

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

  void add(const CrewDay& day, const std::vector<ClockSpan>& open) {
    const auto trip = visits::trip_of(fleet_, *day.crew, site_);
    if (!trip || open.empty()) return;
    visits::trip::TripHours hours = visits::trip::hours_of(day, *trip, open);
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
    hours.meal = 0;
    one.but_for_meal = visits::trip::longest_stay(hours) >= work_;
    const auto rank = std::pair(one.but_for_meal, longest);
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
  std::pair<bool, int> rank_;
};

}  // namespace

std::optional<DayAlone> nearest_day_alone(const Week& week, std::size_t visit) {
  const Visit& of = week.visits[visit];
  Nearest nearest(*week.fleet, *of.site, of.work_minutes);
  for (std::size_t d = 0; d < week.crew_days.size(); ++d) {
    const VisitOption& option = week.visits[visit].options[d];
    if (option.possible) nearest.add(week.crew_days[d], option.spans);
  }
  return nearest.take();
}

std::optional<DayAlone> nearest_day_alone(const VisitsPlan& plan, const NotPossible& out) {
  const Point& point = *out.point;
  const Fleet& fleet = *plan.list->fleet;
  const Site& site = *fleet.site(point.machine->site);
  WeekAsk days{plan.from, days_between(plan.from, plan.to) + 1};
  days.without = plan.without;
  const Day earliest = std::max(plan.from, visits::not_before(point));
  Nearest nearest(fleet, site, visits::minutes_of(point).value_or(0));
  for (const CrewDay& day : visits::crew_days_of(fleet, days)) {
    const auto& left = point.machine->left;
    if (day.on < earliest || (left && day.on >= *left) || !visits::can(*day.crew, visits::needs_of(point))) continue;
    nearest.add(day, visits::opening_on(fleet, site, day.on));
  }
  return nearest.take();
}

}  // namespace service
