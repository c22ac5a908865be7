// Where in a plan it is told what waits to be mended, so that it is told once to everybody who needs it.
#include <algorithm>
#include <iterator>

#include "service/rounds_list.h"
#include "service/visits_list.h"

namespace service {
namespace {

template <class Waiting, class Holds>
std::vector<const WaitsToMend*> those_of(const Waiting& waiting, const Holds& holds) {
  std::vector<const WaitsToMend*> all;
  for (const WaitsToMend& one : waiting) {
    if (holds(one)) all.push_back(&one);
  }
  return all;
}

bool tells_it(const std::vector<WaitsToMend>& waiting, const SeenSign& seen) {
  return std::any_of(waiting.begin(), waiting.end(), [&](const WaitsToMend& one) {
    return one.seen != nullptr && one.seen->fact == seen.fact && one.seen->sign == seen.sign;
  });
}

std::vector<const SeenSign*> beside(const std::vector<WaitsToMend>& waiting, const std::vector<const SeenSign*>& seen) {
  std::vector<const SeenSign*> all;
  std::copy_if(seen.begin(), seen.end(), std::back_inserter(all),
               [&](const SeenSign* one) { return !tells_it(waiting, *one); });
  return all;
}

bool is_for(const SiteVisit& visit, const Machine& machine) {
  return std::any_of(visit.tasks.begin(), visit.tasks.end(),
                     [&](const TripTask& task) { return task.point->machine->key == machine.key; });
}

}  // namespace

std::vector<const WaitsToMend*> waiting_at(const RoundsList& list, const Round& round, const RoundStop& stop) {
  const std::vector<Visit>& visits = list.week().visits;
  const Site* const site = visits[stop.visit].site;
  const Machine* const own = visits[stop.visit].machine;
  const auto first = std::find_if(round.stops.begin(), round.stops.end(),
                                  [&](const RoundStop& one) { return visits[one.visit].site == site; });
  const bool is_first = first != round.stops.end() && first->visit == stop.visit;
  return those_of(list.to_mend, [&](const WaitsToMend& one) {
    if (own != nullptr && own->key == one.machine->key) return true;
    const auto is_there = [&](const RoundStop& other) {
      const Machine* const machine = visits[other.visit].machine;
      return machine != nullptr && machine->key == one.machine->key;
    };
    return is_first && one.site == site && std::none_of(round.stops.begin(), round.stops.end(), is_there);
  });
}

std::vector<const WaitsToMend*> waiting_elsewhere(const RoundsList& list) {
  const std::vector<Visit>& visits = list.week().visits;
  return those_of(list.to_mend, [&](const WaitsToMend& one) {
    return std::none_of(list.plan.rounds.begin(), list.plan.rounds.end(), [&](const Round& round) {
      return std::any_of(round.stops.begin(), round.stops.end(),
                         [&](const RoundStop& stop) { return visits[stop.visit].site == one.site; });
    });
  });
}

std::vector<const SeenSign*> seen_beside_mending(const RoundsList& list) { return beside(list.to_mend, list.seen); }

std::vector<const SeenSign*> to_look_at(const RoundsList& list, const Visit& visit) {
  return beside(list.to_mend, seen_at(*list.week().list, visit));
}

std::vector<const WaitsToMend*> waiting_at(const VisitsList& list, const SiteVisit& visit) {
  const auto first = std::find_if(list.plan.visits.begin(), list.plan.visits.end(),
                                  [&](const SiteVisit& one) { return one.site == visit.site; });
  if (first == list.plan.visits.end() || &*first != &visit) return {};
  return those_of(list.to_mend,
                  [&](const WaitsToMend& one) { return one.site == visit.site && !is_for(visit, *one.machine); });
}

std::vector<const WaitsToMend*> waiting_of(const VisitsList& list, const Machine& machine) {
  return those_of(list.to_mend, [&](const WaitsToMend& one) { return one.machine->key == machine.key; });
}

std::vector<const SeenSign*> to_look_at(const VisitsList& list, const SiteVisit& visit) {
  return beside(list.to_mend, visit.seen);
}

std::vector<const WaitsToMend*> waiting_elsewhere(const VisitsList& list) {
  return those_of(list.to_mend, [&](const WaitsToMend& one) {
    return std::none_of(list.plan.visits.begin(), list.plan.visits.end(),
                        [&](const SiteVisit& visit) { return visit.site == one.site; });
  });
}

std::vector<const SeenSign*> seen_beside_mending(const VisitsList& list) { return beside(list.to_mend, list.seen); }

}  // namespace service
