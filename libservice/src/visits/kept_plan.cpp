#include "visits/kept_plan.h"

#include <algorithm>
#include <map>

namespace service::visits {
namespace {

// The machine of a stop: as it says, else by the visit's name, which begins with it.
std::string machine_of(const GivenStop& stop) {
  return stop.machine && !stop.machine->empty() ? *stop.machine : stop.visit.substr(0, stop.visit.find('+'));
}

using Where = std::pair<std::string, Day>;  // crew and day

// Where a stop was to be, as the plan that was kept says, else where its machine stands. Whoever waits there waits for
// a visit that is no longer wanted, too.
const Site* site_of(const Fleet& fleet, const GivenStop& stop) {
  if (const Site* const site = stop.site ? fleet.site(*stop.site) : nullptr; site != nullptr) return site;
  for (const Call& call : fleet.calls) {
    if (stop.visit != "call " + call.key) continue;
    const Machine* const of_call = fleet.machine(call.machine);
    return fleet.site(of_call == nullptr ? call.site : of_call->site);
  }
  const Machine* const machine = fleet.machine(machine_of(stop));
  return machine == nullptr ? nullptr : fleet.site(machine->site);
}

}  // namespace

DoneBefore::DoneBefore(const std::optional<GivenPlan>& kept, Day from) {
  if (!kept) return;
  for (const GivenRound& round : kept->rounds) {
    if (round.on >= from) continue;
    for (const GivenStop& stop : round.stops) {
      visits_.push_back(stop.visit);
      if (!stop.tasks || stop.tasks->empty()) {
        whole_.insert(stop.visit);
        continue;
      }
      for (const GivenTask& task : *stop.tasks) points_.emplace(machine_of(stop), task.task, task.position);
    }
  }
}

bool DoneBefore::holds(const Point& point) const {
  return points_.contains({point.machine->key, point.name, point.position});
}

bool DoneBefore::holds(const std::string& visit) const { return whole_.contains(visit); }

std::vector<Promise> promises_of(const std::optional<GivenPlan>& kept, Day from) {
  std::vector<Promise> promises;
  if (!kept) return promises;
  for (const GivenRound& round : kept->rounds) {
    if (round.on < from) continue;
    for (const GivenStop& stop : round.stops) {
      if (stop.promised) promises.push_back({stop.visit, round.crew, round.on});
    }
  }
  return promises;
}

std::vector<PlanChange> changes_of(const RoundsPlan& plan) {
  const Week& week = plan.week;
  if (!week.kept) return {};
  std::map<std::string, Where> now;
  std::vector<std::string> order;
  for (const Round& round : plan.rounds) {
    const CrewDay& day = week.crew_days[round.crew_day];
    for (const RoundStop& stop : round.stops) {
      const std::string& name = week.visits[stop.visit].name;
      now.emplace(name, Where{day.crew->key, day.on});
      order.push_back(name);
    }
  }
  const auto visit_named = [&](const std::string& name) -> const Visit* {
    const auto visit =
        std::find_if(week.visits.begin(), week.visits.end(), [&](const Visit& one) { return one.name == name; });
    return visit == week.visits.end() ? nullptr : &*visit;
  };
  std::vector<PlanChange> changes;
  std::set<std::string> told;
  for (const GivenRound& round : week.kept->rounds) {
    for (const GivenStop& stop : round.stops) {
      if (round.on < week.from || !told.insert(stop.visit).second) continue;
      const Where was{round.crew, round.on};
      const auto is = now.find(stop.visit);
      if (is != now.end() && is->second == was) continue;
      const Visit* const visit = visit_named(stop.visit);
      changes.push_back({stop.visit, was, is == now.end() ? std::nullopt : std::optional(is->second),
                         visit != nullptr ? visit->site : site_of(*week.fleet, stop), visit != nullptr});
    }
  }
  for (const std::string& name : order) {
    if (!told.contains(name)) changes.push_back({name, std::nullopt, now.at(name), visit_named(name)->site, true});
  }
  return changes;
}

}  // namespace service::visits
