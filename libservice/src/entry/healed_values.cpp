#include "service/healed_values.h"

#include <algorithm>
#include <utility>

#include "entry/healed.h"

namespace service {

std::vector<HealedValue> healed_values(const Fleet& fleet, const Machine& machine, std::span<const Fact> facts) {
  std::vector<HealedValue> values;
  for (const entry::Healed& healed : entry::healed_in(fleet, machine, facts)) {
    if (!never_waits(*healed.task, nullptr)) continue;
    const auto& limb = healed.limb;
    values.push_back({machine.key, healed.task->name, healed.position, limb.unit, limb.limit, limb.above,
                      facts[healed.was], facts[healed.is]});
  }
  return values;
}

std::vector<HealedValue> healed_values(const Entered& entered) {
  std::vector<HealedValue> values;
  if (entered.is == nullptr) return values;
  const auto is_added = [&](const Fact& fact) {
    return std::any_of(entered.added.begin(), entered.added.end(), [&](const Fact& one) { return one.id == fact.id; });
  };
  for (const std::string& key : entered.machines) {
    const Machine* machine = entered.is->fleet().machine(key);
    if (machine == nullptr) continue;
    for (HealedValue& value : healed_values(entered.is->fleet(), *machine, entered.is->facts_of(key))) {
      if (is_added(value.was) || is_added(value.is)) values.push_back(std::move(value));
    }
  }
  return values;
}

}  // namespace service
