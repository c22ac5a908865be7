// Looks that found good what was not open: the machine beside it may be the one that was meant.
#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "service/entry.h"

namespace service {
namespace {

// Whether somebody has to look at it: a listed sign that makes a task come due, or what is kept as seen.
bool is_open(const DueList& list, const std::string& machine, const std::string& name) {
  const bool listed = std::any_of(list.points.begin(), list.points.end(), [&](const Point& point) {
    return point.machine->key == machine && std::any_of(point.limbs.begin(), point.limbs.end(), [&](const auto& limb) {
             return std::any_of(limb.noticed.begin(), limb.noticed.end(),
                                [&](const NoticedSign& sign) { return sign.name == name && !sign.answered(); });
           });
  });
  return listed || std::any_of(list.seen.begin(), list.seen.end(),
                               [&](const SeenSign& seen) { return seen.machine->key == machine && seen.sign == name; });
}

// The look answered what was open before it, in the book or among what was added with it.
bool answers_something(const Entered& entered, const Fact& look) {
  if (is_open(*entered.before, look.machine, look.name)) return true;
  return std::any_of(entered.added.begin(), entered.added.end(), [&](const Fact& fact) {
    const bool raises = fact.kind == FactKind::sign || fact.kind == FactKind::measurement ||
                        (found_bad(fact) && (fact.kind == FactKind::looked_at || fact.kind == FactKind::service));
    return raises && fact.machine == look.machine && fact.id < look.id;
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
    looks.push_back({&fact, others_open(entered, fact)});
  }
  return looks;
}

}  // namespace service
