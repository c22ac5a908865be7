// Whether a machine is in use, from its facts: laid-up, out-of-use and back.
#include <algorithm>

#include "service/snapshot.h"

namespace service {
namespace {

void add_reason(const Fact& fact, std::vector<UseReason>& reasons) {
  UseReason reason{fact.on.first, fact.note};
  const bool said = std::find(reasons.begin(), reasons.end(), reason) != reasons.end();
  if (!fact.note.empty() && !said) reasons.push_back(std::move(reason));
}

void take_reasons(std::vector<UseReason> reasons, UseState& state) {
  for (const UseReason& reason : reasons) state.note += (state.note.empty() ? "" : "; ") + reason.note;
  state.reasons = std::move(reasons);
}

}  // namespace

std::string_view to_text(UseKind kind) {
  if (kind == UseKind::in_use) return "in-use";
  return kind == UseKind::laid_up ? "laid-up" : "out-of-use";
}

UseState use_state(std::span<const Fact> facts, Day on) {
  std::optional<LayUp> laid_up;
  std::optional<Day> out_of_use;  // the first day since it was last in use: it has stood since then
  std::vector<UseReason> why_out_of_use;
  std::optional<Day> said_last;
  UseState state;
  // A planned return that has come counts: taking the machine for idle any longer would hide what falls due.
  const auto end_lay_up = [&](Day day) {
    if (!laid_up || !laid_up->until || *laid_up->until > day) return;
    state.since = laid_up->until;
    state.ran_out = laid_up;
    laid_up.reset();
  };
  for (const Fact& fact : facts) {
    const Day day = fact.on.first;
    if (day > on) break;
    if (fact.kind == FactKind::laid_up) {
      end_lay_up(day);
      if (!laid_up) laid_up = LayUp{day, std::nullopt, {}};
      laid_up->until = fact.until;
      said_last = day;
      add_reason(fact, laid_up->reasons);
      state.ran_out.reset();
    } else if (fact.kind == FactKind::out_of_use) {
      if (!out_of_use) out_of_use = day;
      said_last = day;
      add_reason(fact, why_out_of_use);
      state.ran_out.reset();
    } else if (fact.kind == FactKind::back) {
      state.since = day;
      laid_up.reset();
      out_of_use.reset();
      why_out_of_use.clear();
      state.ran_out.reset();
    }
  }
  end_lay_up(on);
  state.laid_up = laid_up;
  if (out_of_use) {
    state.kind = UseKind::out_of_use;
    state.since = out_of_use;
    take_reasons(std::move(why_out_of_use), state);
  } else if (laid_up) {
    state.kind = UseKind::laid_up;
    state.since = laid_up->since;
    state.until = laid_up->until;
    take_reasons(laid_up->reasons, state);
  }
  if (state.kind != UseKind::in_use) state.ran_out.reset();  // out of use beside it: that stands since `said_last`
  if (state.kind != UseKind::in_use || state.ran_out) state.said_last = said_last;
  return state;
}

UseState use_state(const Snapshot& snapshot, const Machine& machine) {
  return use_state(snapshot.bearing_facts_of(machine.key), snapshot.as_of());
}

bool kept_on(const Machine& machine, Day day) {
  if (machine.start.kind != StartKind::unknown && day < machine.start.on.first) return false;
  return !machine.left || day < *machine.left;
}

}  // namespace service
