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
  if (fact.kind == FactKind::sign && !is_listed(fact.name)) return Kept{fact.name, false};
  if (fact.kind == FactKind::measurement && fact.value && !is_among(measured_, fact.name)) {
    return Kept{fmt::format("{} {}{}{}", at_position(fact.name, fact.position), to_text(*fact.value),
                            fact.unit.empty() ? "" : " ", fact.unit),
                false};
  }
  if (fact.kind == FactKind::service && found_bad(fact)) {
    const NamedTask named = task_named(schedule_, fact.task);
    if (named.task == nullptr) return std::nullopt;
    const bool failed = fact.found == Found::failed;
    const bool safety = leaves_unsafe(named, failed);
    if (!safety && !(failed && named.follow_up != nullptr)) return std::nullopt;
    return Kept{fmt::format("{} found {}", at_position(fact.task, fact.position), to_text(*fact.found)), safety};
  }
  return std::nullopt;
}

bool KeptAsSeen::is_listed(const std::string& sign) const { return is_among(signs_, sign); }

// What was done never waits and renewed nothing there, so the machine is as bad as it was found. Failed, that is
// said of all that a service includes, for nobody knows which of it did.
bool KeptAsSeen::leaves_unsafe(const NamedTask& named, bool failed) const {
  if (named.follow_up != nullptr) return never_waits(*named.task, named.follow_up);
  const auto names = failed ? done_with(schedule_, named.task->name) : std::vector<std::string>{named.task->name};
  return std::any_of(names.begin(), names.end(), [&](const std::string& name) {
    const NamedTask each = task_named(schedule_, name);
    return never_waits(*each.task, nullptr) && !renews(machine_, each);
  });
}

}  // namespace service
