#include "entry/message_answers.h"

#include <algorithm>

#include "service/snapshot.h"

namespace service::entry {
namespace {

template <class Kind, class Is>
bool has_limb(const MachineTask& task, const Is& is) {
  for (const auto* choices : {&task.every, &task.first}) {
    for (const LimbChoice& choice : *choices) {
      const auto* limb = std::get_if<Kind>(&choice.candidates.front());
      if (limb != nullptr && is(*limb)) return true;
    }
  }
  return false;
}

// Whether a service of this task, or of one that it includes, is an answer to what was seen or measured.
bool answers_by_work(const Fleet& fleet, const Machine& machine, const Fact& service, const Fact& raised) {
  for (const std::string& name : done_with(fleet.schedule_of(machine), service.task)) {
    const auto task = task_of(fleet, machine, name);
    if (!task) continue;
    const bool seen =
        (raised.kind == FactKind::sign || is_bad_look(raised)) && has_limb<SignLimb>(*task, [&](const SignLimb& limb) {
          return std::find(limb.signs.begin(), limb.signs.end(), raised.name) != limb.signs.end();
        });
    const bool measured = raised.kind == FactKind::measurement &&
                          has_limb<MeasuredLimb>(*task, [&](const MeasuredLimb& l) { return l.name == raised.name; });
    if (seen || measured) return true;
  }
  return false;
}

}  // namespace

bool is_bad_look(const Fact& fact) { return fact.kind == FactKind::looked_at && found_bad(fact); }

bool raises(const Fact& fact) {
  return fact.kind == FactKind::sign || fact.kind == FactKind::measurement || fact.kind == FactKind::out_of_use ||
         is_bad_look(fact);
}

bool answers(const Fleet& fleet, const Machine& machine, const Fact& later, const Fact& raised) {
  if (raised.kind == FactKind::out_of_use) return later.kind == FactKind::back;
  if (later.kind == FactKind::service) return answers_by_work(fleet, machine, later, raised);
  if (later.kind != FactKind::looked_at || found_bad(later)) return false;
  // A measurement is looked at by its name and its value.
  return raised.kind == FactKind::measurement ? later.name.starts_with(raised.name) : later.name == raised.name;
}

bool may_answer(const Fact& fact) {
  return (fact.kind == FactKind::service || fact.kind == FactKind::looked_at) && fact.on.whole_day();
}

bool clears(const Fact& fact) {
  return fact.kind == FactKind::service || (fact.kind == FactKind::looked_at && !found_bad(fact));
}

}  // namespace service::entry
