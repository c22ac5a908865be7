// Whether a machine is in use, from its facts: laid-up, out-of-use and back.
#include "service/snapshot.h"

namespace service {

std::string_view to_text(UseKind kind) {
  if (kind == UseKind::in_use) return "in-use";
  return kind == UseKind::laid_up ? "laid-up" : "out-of-use";
}

UseState use_state(const Snapshot& snapshot, const Machine& machine) {
  const Fact* laid_up = nullptr;
  const Fact* out_of_use = nullptr;  // the first since it was last in use: it has stood since then
  std::string why;                   // what was said last of it
  const Fact* back = nullptr;
  for (const Fact& fact : snapshot.facts_of(machine.key)) {
    if (fact.kind == FactKind::laid_up) laid_up = &fact;
    if (fact.kind == FactKind::out_of_use) {
      if (out_of_use == nullptr) out_of_use = &fact;
      if (!fact.note.empty()) why = fact.note;
    }
    if (fact.kind != FactKind::back) continue;
    back = &fact;
    laid_up = nullptr;
    out_of_use = nullptr;
    why.clear();
  }
  UseState state;
  if (back != nullptr) state.since = back->on.first;
  // A planned return that has come counts: taking the machine for idle any longer would hide what falls due.
  if (laid_up != nullptr && laid_up->until && *laid_up->until <= snapshot.as_of()) {
    state.since = laid_up->until;
    laid_up = nullptr;
  }
  state.laid_up = laid_up != nullptr;
  if (out_of_use != nullptr) {
    state.kind = UseKind::out_of_use;
    state.since = out_of_use->on.first;
    state.note = std::move(why);
  } else if (laid_up != nullptr) {
    state.kind = UseKind::laid_up;
    state.since = laid_up->on.first;
    state.until = laid_up->until;
    state.note = laid_up->note;
  }
  return state;
}

bool kept_on(const Machine& machine, Day day) {
  if (machine.start.kind != StartKind::unknown && day < machine.start.on.first) return false;
  return !machine.left || day < *machine.left;
}

}  // namespace service
