#include "visits/trip_visits.h"

#include <algorithm>

#include "service/minding.h"
#include "visits/load.h"

namespace service::visits::trip {
namespace {

std::size_t place(int number) { return static_cast<std::size_t>(number); }

// One point on one day of its group.
struct Placed {
  const Group& group;
  const TripPoint& point;
  const CrewTrip& crew;
  int day = 0;
  int asked = 0;  // the day that was best of all
  int best = 0;   // the cheapest day for it alone, with what it includes
  Day on(int number) const { return group.days[place(number)].on; }
};

TripReason reason_for(const Placed& placed, const Window& window) {
  const Day due = *placed.point.point->due_on;
  const Day on = placed.on(placed.day);
  if (placed.day != placed.asked) return TripReason::day_full;
  if (never_waits(*placed.point.point) && placed.day > window.own) return TripReason::day_full;
  if (on == due) return TripReason::due_day;
  if (placed.day == window.own) {
    if (on < due) return TripReason::last_day;
    const bool waited = placed.point.point->put_off && placed.point.earliest > due;
    return waited ? TripReason::put_off : TripReason::first_day;
  }
  if (placed.day == placed.best) return TripReason::likely_day;
  return placed.day < window.own ? TripReason::early : TripReason::late;
}

Money own_cost_of(const Placed& placed, int own) {
  const TripDay& day = placed.group.days[place(own)];
  const auto crew = std::find_if(day.crews.begin(), day.crews.end(),
                                 [&](const CrewTrip& one) { return one.room >= placed.point.minutes; });
  return crew->trip.cost + placed.point.cost.early(day.on) + placed.point.cost.late(day.on);
}

TripTask task_of(const Fleet& fleet, const Placed& placed, const std::vector<const Point*>& alone) {
  const TripPoint& point = placed.point;
  const Window window = *window_of(point, placed.group.days);
  const Day on = placed.on(placed.day);
  TripTask task;
  task.point = point.point;
  task.early_days = std::max(0, days_between(on, *point.point->due_on));
  task.late_days = std::max(0, days_between(*point.point->due_on, on));
  task.early = point.cost.early(on);
  task.late = point.cost.late(on);
  task.own_day = placed.on(window.own);
  task.own_cost = own_cost_of(placed, window.own);
  task.why = reason_for(placed, window);
  if (task.why == TripReason::day_full) {
    task.full_day = placed.on(placed.day != placed.asked ? placed.asked : window.own);
  }
  if (std::find(alone.begin(), alone.end(), point.point) != alone.end()) return task;
  task.why = TripReason::included;
  task.full_day.reset();
  const auto with = std::find_if(alone.begin(), alone.end(), [&](const Point* other) {
    return other->machine == point.point->machine && stands_for(fleet, *other, *point.point);
  });
  if (with != alone.end()) task.with = *with;
  return task;
}

void by_machine(std::vector<TripTask>& tasks) {
  std::vector<const Machine*> machines;
  for (const TripTask& task : tasks) machines.push_back(task.point->machine);
  const auto place_of = [&](const TripTask& task) {
    return std::find(machines.begin(), machines.end(), task.point->machine) - machines.begin();
  };
  std::stable_sort(tasks.begin(), tasks.end(),
                   [&](const TripTask& a, const TripTask& b) { return place_of(a) < place_of(b); });
}

// What is done on each crew-day.
std::vector<std::vector<Placed>> by_crew_day(const SitePlan& site) {
  std::vector<std::vector<Placed>> days;
  for (const GroupPlan& part : site.groups) {
    const auto unit_of = [&](int number) {
      const auto unit = std::find_if(part.units.points.begin(), part.units.points.end(), [&](const auto& points) {
        return std::find(points.begin(), points.end(), number) != points.end();
      });
      return static_cast<std::size_t>(unit - part.units.points.begin());
    };
    for (const PackedTrip& trip : part.trips) {
      // As it is without all others: with what the trip costs.
      const auto& crews = part.whole.days[place(trip.day)].crews;
      const Crew* goes = part.left.days[place(trip.day)].crews[place(trip.crew)].crew;
      const auto crew = std::find_if(crews.begin(), crews.end(), [&](const CrewTrip& one) { return one.crew == goes; });
      std::vector<Placed> placed;
      for (const int number : trip.points) {
        const std::size_t unit = unit_of(number);
        placed.push_back({part.whole, part.whole.points[place(number)], *crew, trip.day, part.day_of[unit],
                          part.units.problem.units[unit].best()});
      }
      const auto same = std::find_if(days.begin(), days.end(), [&](const auto& day) {
        return day.front().crew.crew == goes && day.front().on(day.front().day) == placed.front().on(trip.day);
      });
      if (same == days.end()) {
        days.push_back(std::move(placed));
      } else {
        for (const Placed& one : placed) same->push_back(one);
      }
    }
  }
  return days;
}

SiteVisit visit_of(const DueList& list, const std::vector<Placed>& placed) {
  const Fleet& fleet = *list.fleet;
  const CrewTrip& crew = placed.front().crew;
  SiteVisit visit;
  visit.site = placed.front().group.site;
  visit.on = placed.front().on(placed.front().day);
  visit.crew = crew.crew;
  visit.trip_cost = crew.trip.cost;
  visit.drive_minutes = crew.trip.drive_minutes();
  visit.tenths_of_km = crew.trip.there.tenths_of_km + crew.trip.home.tenths_of_km;
  visit.set_up_minutes = crew.trip.set_up_minutes;
  std::vector<const Point*> points;
  for (const Placed& one : placed) points.push_back(one.point.point);
  std::sort(points.begin(), points.end());  // they stand in the list
  const auto alone = done_alone(fleet, points);
  visit.work_minutes = work_minutes(alone);
  for (const Point* point : points) {
    const auto of =
        std::find_if(placed.begin(), placed.end(), [&](const Placed& one) { return one.point.point == point; });
    visit.tasks.push_back(task_of(fleet, *of, alone));
    visit.safety = visit.safety || is_safety(*point);
    visit.early = visit.early + visit.tasks.back().early;
    visit.late = visit.late + visit.tasks.back().late;
  }
  Load load = load_of(*crew.crew, alone);
  visit.parts = std::move(load.parts);
  visit.fluids = std::move(load.fluids);
  visit.cautions = service::cautions_of(points);
  for (const SeenSign& seen : list.seen) {
    if (std::none_of(points.begin(), points.end(),
                     [&](const Point* point) { return point->machine == seen.machine; })) {
      continue;
    }
    visit.seen.push_back(&seen);
    add_each(visit.cautions, service::cautions_of(fleet, seen));
  }
  sort_by_catalogue(visit.cautions);
  by_machine(visit.tasks);
  return visit;
}

}  // namespace

std::vector<SiteVisit> visits_of(const DueList& list, const SitePlan& site) {
  std::vector<SiteVisit> visits;
  for (const auto& placed : by_crew_day(site)) visits.push_back(visit_of(list, placed));
  return visits;
}

}  // namespace service::visits::trip
