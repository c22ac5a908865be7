// Which facts are kept among what was seen, because nothing else would tell of them.
#include <fmt/format.h>

#include <algorithm>

#include "service/snapshot.h"

namespace service {
namespace {

std::string at_position(const std::string& name, const std::string& position) {
  return position.empty() ? name : name + '@' + position;
}

bool is_among(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

}  // namespace

KeptAsSeen::KeptAsSeen(const Fleet& fleet, const Machine& machine)
    : machine_(machine), schedule_(fleet.schedule_of(machine)) {
  for (const ListedSign& sign : listed_signs(fleet, machine)) signs_.push_back(sign.name);
  for (const MeasuredName& measured : measured_names(fleet, machine)) measured_.push_back(measured.name);
}

std::optional<Kept> KeptAsSeen::of(const Fact& fact) const {
  if (fact.kind == FactKind::sign && !is_among(signs_, fact.name)) return Kept{fact.name, false};
  if (fact.kind == FactKind::measurement && fact.value && !is_among(measured_, fact.name)) {
    return Kept{fmt::format("{} {}{}{}", at_position(fact.name, fact.position), to_text(*fact.value),
                            fact.unit.empty() ? "" : " ", fact.unit),
                false};
  }
  if (fact.kind == FactKind::service && found_bad(fact)) {
    const NamedTask named = task_named(schedule_, fact.task);
    if (named.task == nullptr || !never_waits(*named.task, named.follow_up) || puts_in_new(machine_, named)) return {};
    return Kept{fmt::format("{} found {}", at_position(fact.task, fact.position), to_text(*fact.found)), true};
  }
  return std::nullopt;
}

}  // namespace service
