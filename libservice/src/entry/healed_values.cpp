#include "service/healed_values.h"

#include <set>
#include <string_view>
#include <utility>

#include "entry/added_ids.h"
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
  std::set<std::string_view> measured;  // machines of which a value was added: of others none of the two was
  for (const Fact& fact : entered.added) {
    if (fact.kind == FactKind::measurement) measured.insert(fact.machine);
  }
  if (measured.empty()) return values;
  const AddedIds added(entered.added);
  for (const std::string& key : entered.machines) {
    const Machine* machine = measured.contains(key) ? entered.is->fleet().machine(key) : nullptr;
    if (machine == nullptr) continue;
    for (HealedValue& value : healed_values(entered.is->fleet(), *machine, entered.is->facts_of(key))) {
      if (added.contains(value.was.id) || added.contains(value.is.id)) values.push_back(std::move(value));
    }
  }
  return values;
}

}  // namespace service
