// Whether a machine is in use: the newest of laid-up, out-of-use and back decides.
#include "service/snapshot.h"

namespace service {

UseState use_state(const Snapshot& snapshot, const Machine& machine) {
  UseState state;
  for (const Fact& fact : snapshot.facts_of(machine.key)) {
    switch (fact.kind) {
      case FactKind::laid_up:
        state = {UseKind::laid_up, fact.on.first, fact.until, fact.note};
        break;
      case FactKind::out_of_use:
        state = {UseKind::out_of_use, fact.on.first, std::nullopt, fact.note};
        break;
      case FactKind::back:
        state = {UseKind::in_use, fact.on.first, std::nullopt, fact.note};
        break;
      default:
        break;
    }
  }
  // A planned return that has come counts: taking the machine for idle any longer would hide what falls due.
  if (state.kind == UseKind::laid_up && state.until && *state.until <= snapshot.as_of()) {
    state = {UseKind::in_use, state.until, std::nullopt, state.note};
  }
  return state;
}

bool kept_on(const Machine& machine, Day day) {
  if (machine.start.kind != StartKind::unknown && day < machine.start.on.first) return false;
  return !machine.left || day < *machine.left;
}

}  // namespace service
