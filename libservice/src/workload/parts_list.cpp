#include <algorithm>
#include <map>

#include "service/other_work.h"
#include "service/workload.h"
#include "workload/coming_uses.h"
#include "workload/needs.h"
#include "workload/outlooks.h"

namespace service {
namespace {

template <class Named>
void keep_of(const Scope& scope, std::vector<Named>& named) {
  std::erase_if(named, [&](const Named& each) { return !scope.holds(each.machine->key); });
}

}  // namespace

PartsList parts_list(const Snapshot& snapshot, Day to, const Forecaster& forecaster, const Progress& progress) {
  load::insist_on_whole(snapshot);
  PartsList list;
  list.fleet = snapshot.fleet_ptr();
  list.as_of = snapshot.as_of();
  list.to = to;
  list.scope = snapshot.scope();
  const load::Unsaid unsaid{list.unknown, list.not_in_use, list.gaps};
  list.needs = load::needs_of(snapshot, load::coming_uses(snapshot.within({}), to, forecaster, progress, unsaid));
  load::keep_uses_of(snapshot, list.needs, list.gaps);
  keep_of(snapshot.scope(), list.unknown);
  keep_of(snapshot.scope(), list.not_in_use);
  list.doubts = load::doubts_of(list.needs, list.gaps);
  list.not_to_run = load::not_to_run_of(snapshot);
  return list;
}

bool for_other_work(const PartNeed& need) {
  return !need.uses.empty() &&
         std::all_of(need.uses.begin(), need.uses.end(), [](const PartUse& use) { return use.other_work; });
}

std::vector<SupplierOrder> orders_of(const PartsList& list) {
  std::map<std::string, SupplierOrder> by_name;
  for (const PartNeed& need : list.needs) {
    if (!need.is_short()) continue;
    const std::string supplier = need.part != nullptr ? need.part->supplier : "";
    SupplierOrder& order = by_name[supplier];
    order.cost = order.needs.empty() ? Money{} : order.cost;
    order.cost = order.cost && need.cost ? std::optional{*order.cost + *need.cost} : std::nullopt;
    order.supplier = supplier;
    order.needs.push_back(&need);
  }
  std::vector<SupplierOrder> orders;
  for (auto& [supplier, order] : by_name) orders.push_back(std::move(order));
  return orders;
}

void keep_first(PartsList& list, std::size_t first) {
  list.left_off += keep_first(list.needs, std::optional(first), [](const PartNeed& need) { return need.is_short(); });
}

}  // namespace service
