#include "service/visits_list.h"

#include <algorithm>
#include <set>

#include "service/first.h"
#include "visits/opening.h"
#include "visits/point_cost.h"
#include "visits/short_parts.h"
#include "visits/trip_visits.h"

namespace service {
namespace {

// A machine that stands at no site is there alone.
Scope whole_sites(const Fleet& fleet, const Scope& scope) {
  if (!scope.machines || !scope.site.empty()) return scope;
  Scope whole{std::vector<std::string>{}};
  for (const Machine& machine : fleet.machines) {
    const bool with_one = std::any_of(fleet.machines.begin(), fleet.machines.end(), [&](const Machine& other) {
      return scope.holds(other.key) && !other.site.empty() && other.site == machine.site;
    });
    if (with_one || scope.holds(machine.key)) whole.machines->push_back(machine.key);
  }
  return whole;
}

Scope all_but(const Fleet& fleet, const Scope& scope) {
  Scope rest{std::vector<std::string>{}};
  for (const Machine& machine : fleet.machines) {
    if (!scope.holds(machine.key)) rest.machines->push_back(machine.key);
  }
  return rest;
}

std::vector<const Site*> sites_of(const Fleet& fleet, const Scope& scope) {
  std::vector<const Site*> sites;
  if (!scope.machines) return sites;
  for (const Site& site : fleet.sites) {
    const bool asked = site.key == scope.site ||
                       std::any_of(fleet.machines.begin(), fleet.machines.end(), [&](const Machine& machine) {
                         return machine.site == site.key && scope.holds(machine.key);
                       });
    if (asked) sites.push_back(&site);
  }
  return sites;
}

std::vector<const Call*> calls_of(const Fleet& fleet, const Scope& scope, const std::vector<const Site*>& sites,
                                  Day to) {
  std::vector<const Call*> calls;
  for (const Call& call : fleet.calls) {
    const Machine* const machine = fleet.machine(call.machine);
    const std::string& at = machine == nullptr ? call.site : machine->site;
    const bool there = std::any_of(sites.begin(), sites.end(), [&](const Site* site) { return site->key == at; });
    const bool asked = !scope.machines || there || (machine != nullptr && scope.holds(machine->key));
    if (asked && (!call.from || *call.from <= to)) calls.push_back(&call);
  }
  return calls;
}

void keep_only(VisitsPlan& plan, const Scope& scope) {
  const auto elsewhere = [&](const Machine* machine) { return !scope.holds(machine->key); };
  std::erase_if(plan.visits, [&](const SiteVisit& visit) {
    return std::all_of(visit.tasks.begin(), visit.tasks.end(),
                       [&](const TripTask& task) { return elsewhere(task.point->machine); });
  });
  std::erase_if(plan.not_possible, [&](const NotPossible& out) { return elsewhere(out.point->machine); });
  std::erase_if(plan.not_planned, [&](const NotPlanned& row) { return elsewhere(row.point.machine); });
  for (auto* points : {&plan.no_record, &plan.unknown}) {
    std::erase_if(*points, [&](const PointName& point) { return elsewhere(point.machine); });
  }
}

// A check is owed once.
std::vector<PointName> again_of(const VisitsPlan& plan) {
  std::vector<PointName> again;
  for (const SiteVisit& visit : plan.visits) {
    for (const TripTask& task : visit.tasks) {
      const Point& point = *task.point;
      if (point.follow_up != nullptr || !point.fitted) continue;
      const std::chrono::days life{visits::life_days_of(point, *point.due_on)};
      if (visit.on + life <= plan.to) again.push_back(name_of(point));
    }
  }
  return again;
}

// The machine stands and is back in the span, so a service that mends it has its place, and nothing waits.
bool is_mended_by_visit(const VisitsPlan& plan, const WaitsToMend& one) {
  if (one.point == nullptr || leaves_unmended(*plan.list, *one.point)) return false;
  const auto holds = [&](const SiteVisit& visit) {
    return std::any_of(visit.tasks.begin(), visit.tasks.end(),
                       [&](const TripTask& task) { return task.point == one.point; });
  };
  return std::any_of(plan.visits.begin(), plan.visits.end(), holds) ||
         std::any_of(plan.not_possible.begin(), plan.not_possible.end(),
                     [&](const NotPossible& out) { return out.point == one.point; });
}

// The loads of a plan of more sites stand in another due list.
bool is_load_of(const TripTask& task, const PlannedLoad& load) {
  return load.point != nullptr && task.point->machine == load.point->machine && task.point->name == load.point->name &&
         task.point->position == load.point->position;
}

bool is_load_of(const SiteVisit& visit, const PlannedLoad& load) {
  return std::any_of(visit.tasks.begin(), visit.tasks.end(),
                     [&](const TripTask& task) { return is_load_of(task, load); });
}

// Told are the loads of trips that are; what fills up goes along with the work of its trip.
void mark_told(std::vector<PlannedLoad>& loads, const VisitsPlan& plan) {
  std::set<std::size_t> told;
  for (const PlannedLoad& load : loads) {
    const auto holds = [&](const SiteVisit& visit) { return is_load_of(visit, load); };
    if (std::any_of(plan.visits.begin(), plan.visits.end(), holds)) told.insert(load.visit);
  }
  for (PlannedLoad& load : loads) load.told = told.contains(load.visit);
}

// What trips of different plans load, as if they were one plan, for a crew goes to sites of both.
std::vector<PlannedLoad> fill_loads(const std::vector<VisitsPlan*>& plans) {
  std::vector<SiteVisit*> all;
  for (VisitsPlan* plan : plans) {
    for (SiteVisit& visit : plan->visits) all.push_back(&visit);
  }
  std::stable_sort(all.begin(), all.end(), [](const SiteVisit* a, const SiteVisit* b) { return comes_before(*a, *b); });
  visits::trip::fill_loads(all);
  visits::LoadsInOrder loads;
  std::size_t number = 0;
  for (const SiteVisit* visit : all) {
    for (const TripTask& task : visit->tasks) {
      Resources takes = takes_of(task);
      loads.add(visit->crew,
                {number, task.point, task.point->machine, visit->on, std::move(takes.parts), std::move(takes.fluids)});
    }
    PlannedLoad filling_up;
    filling_up.visit = number++;
    filling_up.on = visit->on;
    filling_up.what = LoadFor::filling_up;
    loads.end_round(*visit->crew, std::move(filling_up));
  }
  return loads.take();
}

int hours_of(const Crew& crew, Day on) {
  const auto hours = crew.hours.find(visits::weekday_of(on));
  const int minutes = hours->second.front().to - hours->second.front().from;
  return crew.duty ? std::min(minutes, static_cast<int>(crew.duty->count())) : minutes;
}

std::vector<CrowdedDay> crowded_of(const VisitsPlan& plan) {
  std::vector<CrowdedDay> crowded;
  for (const SiteVisit& visit : plan.visits) {
    auto day = std::find_if(crowded.begin(), crowded.end(),
                            [&](const CrowdedDay& one) { return one.crew == visit.crew && one.on == visit.on; });
    if (day == crowded.end()) {
      const int meal = static_cast<int>(visit.crew->meal.count());
      day = crowded.insert(crowded.end(), {visit.crew, visit.on, {}, 0, meal, hours_of(*visit.crew, visit.on)});
    }
    ++day->trips;
    if (day->sites.empty() || day->sites.back() != visit.site) day->sites.push_back(visit.site);
    day->minutes += visit.drive_minutes + visit.set_up_minutes + visit.work_minutes;
  }
  std::erase_if(crowded, [](const CrowdedDay& day) { return day.trips < 2 || day.minutes <= day.has_minutes; });
  return crowded;
}

}  // namespace

Resources takes_of(const TripTask& task) {
  if (task.why == TripReason::included) {
    Resources nothing;
    nothing.time = std::chrono::minutes{0};
    return nothing;
  }
  return resources_of(*task.point->machine, *task.point->task, task.point->follow_up);
}

VisitsList visits_list(const Snapshot& snapshot, const Forecaster& forecaster, const VisitsAsk& ask,
                       const Scope& scope) {
  const Fleet& fleet = snapshot.fleet();
  const auto list_of = [&](const Scope& machines) {
    return std::make_shared<const DueList>(
        due_list(snapshot.within(machines), {ask.to, {}, Detail::coming}, forecaster));
  };
  const Scope whole = whole_sites(fleet, scope);
  VisitsList list;
  list.asked = list_of(scope);
  const bool wider = scope.machines && whole.machines->size() > scope.machines->size();
  list.plan = plan_visits(wider ? list_of(whole) : list.asked, ask);
  list.sites = sites_of(fleet, scope);
  list.calls = calls_of(fleet, scope, list.sites, list.plan.to);
  list.visits = list.plan.visits.size();
  for (const SiteVisit& visit : list.plan.visits) list.tasks += visit.tasks.size();
  if (!scope.machines) list.crowded = crowded_of(list.plan);
  // Stock is the whole fleet's: what visits to other sites take before is there no more.
  const Scope rest = all_but(fleet, whole);
  VisitsPlan others = rest.machines->empty() ? VisitsPlan{} : plan_visits(list_of(rest), ask);
  list.loads = fill_loads({&list.plan, &others});
  list.loads_from = others.list;
  if (wider) keep_only(list.plan, scope);
  mark_told(list.loads, list.plan);
  list.told = list.plan.visits.size();
  list.carried = std::any_of(list.plan.visits.begin(), list.plan.visits.end(),
                             [](const SiteVisit& visit) { return !visit.crew->carries.empty(); });
  list.again = again_of(list.plan);
  list.to_mend = waiting_to_mend(*list.plan.list);
  std::erase_if(list.to_mend, [&](const WaitsToMend& one) { return is_mended_by_visit(list.plan, one); });
  const auto told = [&](const Machine& machine) {
    return scope.holds(machine.key) ||
           std::any_of(list.plan.visits.begin(), list.plan.visits.end(),
                       [&](const SiteVisit& visit) { return visit.site->key == machine.site; });
  };
  std::erase_if(list.to_mend, [&](const WaitsToMend& one) { return !told(*one.machine); });
  list.not_to_run = NotToRun(*list.plan.list, told);
  for (const MachineUse& use : list.plan.list->not_in_use) {
    if (told(*use.machine)) list.not_in_use.push_back(&use);
  }
  for (const SeenSign& seen : list.plan.list->seen) {
    if (told(*seen.machine)) list.seen.push_back(&seen);
  }
  return list;
}

void hold_against_stock(VisitsList& list, const PartsList& parts) {
  visits::take_from_stock(list.loads, parts);
  list.short_parts = visits::short_parts(list.loads);
}

std::vector<PartLack> lacks_of(const VisitsList& list, const TripTask& task) {
  return visits::lacks_of(list.loads, [&](const PlannedLoad& load) { return is_load_of(task, load); });
}

std::vector<PartLack> lacks_of(const VisitsList& list, const SiteVisit& visit) {
  const auto own = std::find_if(list.loads.begin(), list.loads.end(),
                                [&](const PlannedLoad& load) { return is_load_of(visit, load); });
  if (own == list.loads.end()) return {};
  return visits::lacks_of(list.loads, [&](const PlannedLoad& load) { return load.visit == own->visit; });
}

void keep_first(VisitsList& list, std::size_t first) {
  VisitsPlan& plan = list.plan;
  list.left_off += keep_first(plan.visits, first);
  const auto cut = [&](auto& rows, const auto& never) {
    std::size_t kept = 0;
    list.left_off += std::erase_if(rows, [&](const auto& row) { return !never(row) && ++kept > first; });
  };
  const auto waits_never = [](const PointName& point) { return point.safety || point.competent_person; };
  cut(plan.not_possible, [](const NotPossible& out) { return never_waits(*out.point); });
  cut(plan.not_planned, [&](const NotPlanned& row) { return waits_never(row.point); });
  cut(plan.no_record, waits_never);
  cut(plan.unknown, waits_never);
}

bool needs_doing(const VisitsList& list) {
  const VisitsPlan& plan = list.plan;
  const bool out_of_use = std::any_of(list.not_in_use.begin(), list.not_in_use.end(),
                                      [](const MachineUse* one) { return one->state.kind == UseKind::out_of_use; });
  const bool call_open =
      std::any_of(list.calls.begin(), list.calls.end(), [](const Call* call) { return call->safety; });
  return out_of_use || call_open || !plan.not_possible.empty() || !plan.not_planned.empty() ||
         !plan.no_record.empty() || !plan.unknown.empty() || !list.asked->gaps.empty() || !list.seen.empty();
}

}  // namespace service
