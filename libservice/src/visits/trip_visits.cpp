#include "visits/trip_visits.h"

#include <algorithm>

#include "service/minding.h"
#include "visits/load.h"
#include "visits/trip_elsewhere.h"
#include "visits/trip_units.h"
#include "visits/trip_work.h"

namespace service::visits::trip {
namespace {

// One point of a plan, with where else it could be done.
class Reasons {
 public:
  Reasons(const SitePlan& plan) : plan_(plan), model_(*plan.model), elsewhere_(model_, plan.places) {}

  TripTask task_of(int number, const std::vector<const Point*>& alone) const {
    const TripPoint& point = model_.points[slot(number)];
    const Day on = day_of(plan_.places[slot(number)]);
    TripTask task;
    task.point = point.point;
    task.early_days = std::max(0, days_between(on, *point.point->due_on));
    task.late_days = std::max(0, days_between(*point.point->due_on, on));
    task.early = point.cost.early(on);
    task.late = point.cost.late(on);
    const TripSlot& own = model_.slots[slot(model_.own[slot(number)])];
    task.own_day = own.on;
    task.own_cost = own.crew.trip.cost + point.cost.early(own.on) + point.cost.late(own.on);
    if (std::find(alone.begin(), alone.end(), point.point) == alone.end()) {
      include(task, alone);
      return task;
    }
    task.next_best = elsewhere_.next_best(number);
    if (const auto full = elsewhere_.full_day(number)) {
      task.why = TripReason::day_full;
      task.full_day = full->on;
      task.full_by = full->by;
    } else {
      task.why = reason_for(number, on);
    }
    return task;
  }

 private:
  Day day_of(int at) const { return model_.slots[slot(at)].on; }

  void include(TripTask& task, const std::vector<const Point*>& alone) const {
    task.why = TripReason::included;
    const auto with = std::find_if(alone.begin(), alone.end(), [&](const Point* other) {
      return other->machine == task.point->machine && stands_for(*model_.fleet, *other, *task.point);
    });
    if (with != alone.end()) task.with = *with;
  }

  TripReason reason_for(int number, Day on) const {
    const TripPoint& point = model_.points[slot(number)];
    const Day due = *point.point->due_on;
    const Day own = day_of(model_.own[slot(number)]);
    if (on == due) return TripReason::due_day;
    if (on == own && point.back && *point.back > due) return TripReason::laid_up;
    if (on == own) {
      if (on < due) return TripReason::last_day;
      const bool waited = point.point->put_off && point.earliest > due;
      return waited ? TripReason::put_off : TripReason::first_day;
    }
    if (on == elsewhere_.likely_day(number)) return TripReason::likely_day;
    return on < own ? TripReason::early : TripReason::late;
  }

  const SitePlan& plan_;
  const SiteModel& model_;
  Elsewhere elsewhere_;
};

void by_machine(std::vector<TripTask>& tasks) {
  std::vector<const Machine*> machines;
  for (const TripTask& task : tasks) machines.push_back(task.point->machine);
  const auto place_of = [&](const TripTask& task) {
    return std::find(machines.begin(), machines.end(), task.point->machine) - machines.begin();
  };
  std::stable_sort(tasks.begin(), tasks.end(),
                   [&](const TripTask& a, const TripTask& b) { return place_of(a) < place_of(b); });
}

SiteVisit visit_of(const DueList& list, const SiteModel& model, int at, const std::vector<int>& trip,
                   const Reasons& reasons) {
  const Fleet& fleet = *list.fleet;
  const CrewTrip& crew = model.slots[slot(at)].crew;
  SiteVisit visit;
  visit.site = model.site;
  visit.on = model.slots[slot(at)].on;
  visit.crew = crew.crew;
  visit.trip_cost = crew.trip.cost;
  visit.drive_minutes = crew.trip.drive_minutes();
  visit.tenths_of_km = crew.trip.there.tenths_of_km + crew.trip.home.tenths_of_km;
  visit.set_up_minutes = crew.trip.set_up_minutes;
  const std::vector<const Point*> points = points_of(model, trip);
  const auto alone = done_alone(fleet, points);
  visit.work_minutes = work_minutes(alone);
  for (const int number : trip) {
    visit.tasks.push_back(reasons.task_of(number, alone));
    visit.safety = visit.safety || is_safety(*visit.tasks.back().point);
    visit.early = visit.early + visit.tasks.back().early;
    visit.late = visit.late + visit.tasks.back().late;
  }
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

bool works_at(const SiteVisit& visit, const Machine* machine) {
  return std::any_of(visit.tasks.begin(), visit.tasks.end(),
                     [&](const TripTask& task) { return task.point->machine == machine; });
}

void add_shared(std::vector<SiteVisit>& visits) {
  for (SiteVisit& visit : visits) {
    for (const TripTask& task : visit.tasks) {
      const Machine* machine = task.point->machine;
      const bool said = std::any_of(visit.shared.begin(), visit.shared.end(),
                                    [&](const SharedMachine& one) { return one.machine == machine; });
      if (said) continue;
      SharedMachine one{machine, {}};
      for (const SiteVisit& other : visits) {
        if (&other != &visit && other.on == visit.on && works_at(other, machine)) one.others.push_back(other.crew);
      }
      if (!one.others.empty()) visit.shared.push_back(std::move(one));
    }
  }
}

}  // namespace

std::vector<SiteVisit> visits_of(const DueList& list, const SitePlan& site) {
  std::vector<SiteVisit> visits;
  const Reasons reasons(site);
  const auto trips = trips_of(*site.model, site.places);
  for (int at = 0; at < static_cast<int>(trips.size()); ++at) {
    const auto& trip = trips[slot(at)];
    if (!trip.empty()) visits.push_back(visit_of(list, *site.model, at, trip, reasons));
  }
  add_shared(visits);
  return visits;
}

void fill_loads(const std::vector<SiteVisit*>& visits) {
  LoadsOfCrews loads;
  for (SiteVisit* visit : visits) {
    std::vector<const Point*> work;
    for (const TripTask& task : visit->tasks) {
      if (task.why != TripReason::included) work.push_back(task.point);
    }
    auto loaded = loads.next(visit->crew, work);
    visit->parts = std::move(loaded.load.parts);
    visit->fluids = std::move(loaded.load.fluids);
    visit->fills_up = std::move(loaded.fills_up);
  }
}

}  // namespace service::visits::trip
