// Looks that found good what was not open: the machine beside it may be the one that was meant.
#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "service/entry.h"

namespace service {
namespace {

// Since when somebody has to look at it: a listed sign that makes a task come due, or what is kept as seen. The first
// day of several; none: it is not open.
std::optional<Day> open_since(const DueList& list, const std::string& machine, const std::string& name) {
  std::optional<Day> since;
  const auto add = [&](Day day) { since = std::min(since.value_or(day), day); };
  for (const Point& point : list.points) {
    if (point.machine->key != machine) continue;
    for (const auto& limb : point.limbs) {
      for (const NoticedSign& sign : limb.noticed) {
        if (sign.name == name && !sign.answered()) add(sign.first().on.first);
      }
    }
  }
  for (const SeenSign& seen : list.seen) {
    if (seen.machine->key == machine && seen.sign == name) add(seen.on.first);
  }
  return since;
}

bool is_open(const DueList& list, const std::string& machine, const std::string& name) {
  return open_since(list, machine, name).has_value();
}

// The look answered what was open before it, in the book or among what was added with it.
bool answers_something(const Entered& entered, const Fact& look) {
  const auto since = open_since(*entered.before, look.machine, look.name);
  if (since && *since <= look.on.last) return true;
  return std::any_of(entered.added.begin(), entered.added.end(), [&](const Fact& fact) {
    const bool raises = fact.kind == FactKind::sign || fact.kind == FactKind::measurement ||
                        (found_bad(fact) && (fact.kind == FactKind::looked_at || fact.kind == FactKind::service));
    return raises && fact.machine == look.machine && fact.id < look.id && fact.on.first <= look.on.last;
  });
}

std::vector<std::string> others_open(const Entered& entered, const Fact& look) {
  const Fleet& fleet = entered.was->fleet();
  const Machine& machine = *fleet.machine(look.machine);
  Scope kin{std::vector<std::string>{}};
  for (const Machine& other : fleet.machines) {
    if (other.schedule == machine.schedule && other.key != machine.key) kin.machines->push_back(other.key);
  }
  if (kin.machines->empty()) return {};
  const DueList list = due_list(entered.was->within(kin), {entered.today, {}, Detail::standings});
  std::vector<std::string> open = std::move(*kin.machines);
  std::erase_if(open, [&](const std::string& other) { return !is_open(list, other, look.name); });
  return open;
}

}  // namespace

std::vector<LookAtNothing> looks_at_nothing(const Entered& entered) {
  std::vector<LookAtNothing> looks;
  if (entered.before == nullptr) return looks;
  for (const Fact& fact : entered.added) {
    if (fact.kind != FactKind::looked_at || found_bad(fact) || answers_something(entered, fact)) continue;
    const auto since = open_since(*entered.after, fact.machine, fact.name);
    looks.push_back({&fact, others_open(entered, fact), since && *since > fact.on.last ? since : std::nullopt});
  }
  return looks;
}

}  // namespace service
