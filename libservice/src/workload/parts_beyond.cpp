// What is to be bought for the services that come behind the work for a season.
#include <algorithm>
#include <map>
#include <string>
#include <tuple>

#include "workload/coming_uses.h"
#include "workload/needs.h"
#include "workload/whole_plan.h"

namespace service::load {
namespace {

using Which = std::tuple<const Machine*, std::string, std::string>;  // of a point: its machine, task and position

// How many services of each point the season's list takes as done by another one that includes it.
std::map<Which, int> included_of(const SeasonPlan& plan) {
  std::map<Which, int> times;
  for (const auto* items : {&plan.beforehand, &plan.have_ready}) {
    for (const SeasonItem& item : *items) {
      for (const SeasonIncluded& each : item.covered) ++times[{each.name.machine, each.name.task, each.name.position}];
    }
  }
  return times;
}

}  // namespace

PartsList parts_beyond(const Snapshot& snapshot, const WholePlan& whole, Day to, const Forecaster& forecaster,
                       const Progress& progress) {
  PartsList list;
  list.fleet = snapshot.fleet_ptr();
  list.as_of = snapshot.as_of();
  list.to = to;
  list.scope = snapshot.scope();
  list.not_to_run = not_to_run_of(snapshot);
  auto uses = coming_uses(snapshot.within({}), to, forecaster, progress, {list.unknown, list.not_in_use, list.gaps});
  // Services of a point follow each other, so the first ones are those that the season's list has.
  auto included = included_of(whole.plan);
  std::map<std::pair<std::string, Which>, int> listed;  // by part
  for (const PartNeed& need : whole.needs) {
    for (const PartUse& use : need.uses) {
      if (use.likely) ++listed[{need.key, {use.machine, use.task, use.position}}];
    }
  }
  std::erase_if(uses, [&](const Use& use) {
    const Which which{use.use.machine, use.use.task, use.use.position};
    const auto in_list = listed.find({use.key, which});
    const auto in_another = included.find(which);
    const int times =
        (in_list == listed.end() ? 0 : in_list->second) + (in_another == included.end() ? 0 : in_another->second);
    return use.use.round <= times;
  });
  list.needs = needs_of(snapshot, std::move(uses), whole.needs);
  keep_uses_of(snapshot, list.needs, list.gaps);
  list.doubts = doubts_of(list.needs, list.gaps);
  const auto beyond = [&](const auto& each) { return !list.scope.holds(each.machine->key); };
  std::erase_if(list.unknown, beyond);
  std::erase_if(list.not_in_use, beyond);
  return list;
}

}  // namespace service::load
