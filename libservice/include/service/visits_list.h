// A plan of visits as it is told: that of the whole fleet, of a site, or the visits to some machines; with what each
// takes along, and what is not known.
//
//   VisitsList list = visits_list(snapshot, forecaster, {to}, scope);
//   for (const SiteVisit& visit : list.plan.visits) ...
//
// A value that keeps its plan; pointers in it point into what that plan and `asked` keep, and live as long as it does.
#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "service/not_to_run.h"
#include "service/planned_load.h"
#include "service/rounds_list.h"
#include "service/visits.h"
#include "service/waiting_to_mend.h"
#include "service/workload.h"

#pragma GCC visibility push(default)

namespace service {

// What a service takes on its trip, whatever is on board already; of what is included: nothing.
Resources takes_of(const TripTask& task);

// A crew with several trips on one day that, made one after the other, take longer than it has hours.
struct CrowdedDay {
  const Crew* crew = nullptr;
  Day on;
  std::vector<const Site*> sites;  // in the order of the fleet file
  int trips = 0;
  int minutes = 0;      // of driving, set-up, work and meal
  int has_minutes = 0;  // its hours, or its duty where that is shorter
};

struct VisitsList {
  // The visits and rows that are told. Sums are those of all work at `sites`, or of the whole fleet.
  VisitsPlan plan;
  std::shared_ptr<const DueList> asked;  // of what was asked about: its gaps
  std::vector<const Site*> sites;        // to which visits were planned; empty: all
  std::size_t visits = 0;                // that the sums are of
  std::size_t tasks = 0;                 // likewise
  std::size_t told = 0;                  // visits that are told; so many before `keep_first`
  // Each service is planned once: these would come round again in the span, by the length of their last interval.
  std::vector<PointName> again;
  std::vector<CrowdedDay> crowded;  // of a plan of all sites
  // Not planned by itself: of what was asked about, and of all else where one of the visits goes, for whoever goes
  // there is told of all of it. So is he of what nobody may run, and what stands or was seen there. Into `plan.list`.
  std::vector<WaitsToMend> to_mend;
  NotToRun not_to_run;
  std::vector<const MachineUse*> not_in_use;
  std::vector<const SeenSign*> seen;
  // Those that are wanted in the span, at these sites or at the machines asked about. They are in no visit.
  std::vector<const Call*> calls;
  // Of every service that takes something, of a plan of all sites whatever is told, in the order of that plan. Those of
  // sites that are not planned here point into a list of their own.
  std::vector<PlannedLoad> loads;
  std::shared_ptr<const DueList> loads_from;
  bool carried = false;                // a crew of a visit that is told always carries parts: see `SiteVisit::fills_up`
  std::vector<ShortPart> short_parts;  // that visits which are told lack; by key; filled by `hold_against_stock`
  std::size_t left_off = 0;            // by `keep_first`

  const Fleet& fleet() const { return *plan.list->fleet; }
  // What it saves beside each service on its own day.
  Money saved() const { return plan.on_own_days.total - plan.total; }
  // What another choice of days can save at most.
  Money at_most_better() const { return plan.total - plan.bound; }
};

// The snapshot is of the whole fleet. A trip is to a site, with all its work: planned are the whole sites of the
// machines in the scope, told are the visits with work of these machines. Fails as `plan_visits`.
VisitsList visits_list(const Snapshot& snapshot, const Forecaster& forecaster, const VisitsAsk& ask,
                       const Scope& scope = {});

// What waits to be mended where a visit goes, the first one to its site, but on machines that the visit is for: there
// it is told machine by machine. These and the next point into the list.
std::vector<const WaitsToMend*> waiting_at(const VisitsList& list, const SiteVisit& visit);
std::vector<const WaitsToMend*> waiting_of(const VisitsList& list, const Machine& machine);

// What waits where no visit goes. What is left of what was seen when all that waits to be mended is told by itself.
std::vector<const WaitsToMend*> waiting_elsewhere(const VisitsList& list);
std::vector<const SeenSign*> seen_beside_mending(const VisitsList& list);

// What is left of what was seen of the machines of a visit: somebody has to look before they run.
std::vector<const SeenSign*> to_look_at(const VisitsList& list, const SiteVisit& visit);

// What the visits load and stock does not cover, as they use it up in the order of the plan. `parts` is reckoned to the
// end of the span.
void hold_against_stock(VisitsList& list, const PartsList& parts);

// What one service lacks, and what one visit has to load and does not find.
std::vector<PartLack> lacks_of(const VisitsList& list, const TripTask& task);
std::vector<PartLack> lacks_of(const VisitsList& list, const SiteVisit& visit);

// Only the first visits, and the first of what is not possible, not planned, without record and unknown; of these four,
// work that never waits is not cut. Sums stay those of all.
void keep_first(VisitsList& list, std::size_t first);

// Something is not possible, not planned, without record, not known or not looked at, a call for safety is open, or a
// machine is out of use. Work that has its day is no reason.
bool needs_doing(const VisitsList& list);

}  // namespace service

#pragma GCC visibility pop
