// Deciding to wait, and whether a machine works at all: what is written down, reckoned from what is known.
#include "service/entry.h"
#include "service/usage.h"

namespace service {
namespace {

const Meter* meter_of_task(const Snapshot& now, const Machine& machine, std::string_view task,
                           std::string_view position) {
  const DueList list = due_list(now, {now.as_of(), {}, Detail::standings}, straight_line());
  for (const Point& point : list.points) {
    if (point.machine->key != machine.key || point.name != task) continue;
    if (!position.empty() && point.position != position) continue;
    for (const LimbStanding& limb : point.limbs) {
      if (limb.kind == LimbKind::usage) return machine.meter(limb.name);
    }
  }
  return nullptr;
}

}  // namespace

PutOffEnd put_off_end(const Snapshot& now, const Machine& machine, std::string_view task, std::string_view position,
                      const UseUntil& until) {
  PutOffEnd end;
  end.meter = meter_of_task(now, machine, task, position);
  if (end.meter == nullptr) return end;
  if (until.unit != end.meter->unit && !(until.more && until.unit.empty())) {
    end.problem = UseProblem::other_unit;
    return end;
  }
  const MeterHistory history(machine, *end.meter, now.facts_of(machine.key));
  const auto known = history.on(now.as_of());
  if (!known) {
    end.problem = UseProblem::nothing_known;
    return end;
  }
  end.shown = history.shown_at(*known);
  // What the meter shows and its usage differ by the same amount until it is changed.
  const Amount usage = until.more ? *known + until.amount : *known + (until.amount - end.shown);
  if (!until.more && usage <= *known) {
    end.problem = UseProblem::already_shown;
  } else {
    end.usage = usage;
  }
  return end;
}

UseChange use_change(const std::shared_ptr<const Fleet>& fleet, const Extract& known, const Machine& machine,
                     const Fact& told) {
  const Snapshot then(fleet, known, told.on.first, true, {std::vector<std::string>{machine.key}});
  UseChange change{use_state(then, machine), true, false};
  const UseState& before = change.before;
  if (told.kind == FactKind::back) change.changes = before.kind != UseKind::in_use;
  if (told.kind == FactKind::out_of_use) change.changes = before.kind != UseKind::out_of_use;
  if (told.kind == FactKind::laid_up) {
    change.changes = !before.laid_up || before.laid_up->until != told.until;
    change.stays_out_of_use = before.kind == UseKind::out_of_use;
  }
  return change;
}

}  // namespace service
