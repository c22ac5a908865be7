#include "service/element_label.h"

#include <algorithm>

namespace service {
namespace {

// The meter by which the task comes due, else the machine's first.
const Meter* meter_of(const Fleet& fleet, const Machine& machine, const Task& task) {
  if (const auto own = task_of(fleet, machine, task.name)) {
    for (const LimbChoice& choice : own->every) {
      const auto* usage = std::get_if<UsageLimb>(&choice.candidates.front());
      if (usage != nullptr && usage->meter) return machine.meter(*usage->meter);
    }
  }
  return machine.first_meter();
}

}  // namespace

std::optional<ElementLabel> blank_label(const Fleet& fleet, const Machine& machine, const NamedTask& named) {
  if (named.task == nullptr || !puts_in_new(machine, named)) return std::nullopt;
  const Meter* meter = meter_of(fleet, machine, *named.task);
  return ElementLabel{std::nullopt, std::nullopt, meter == nullptr ? "" : meter->unit};
}

std::optional<ElementDueAgain> due_again(const Fleet& fleet, const Machine& machine, const Task& task, Day done_on) {
  const auto own = task_of(fleet, machine, task.name);
  if (!own || task.counts_from != CountsFrom::done) return std::nullopt;
  ElementDueAgain next;
  const Meter* meter = meter_of(fleet, machine, task);
  for (const LimbChoice& choice : own->every) {
    for (const Limb& limb : choice.candidates) {
      if (const auto* usage = std::get_if<UsageLimb>(&limb)) {
        if (meter == nullptr || usage->meter != meter->name) continue;  // the label has room for one meter
        next.more = usage->every;
        next.unit = meter->unit;
      } else if (const auto* calendar = std::get_if<CalendarLimb>(&limb)) {
        Day on = after(done_on, calendar->every);
        if (task.until_month_end) on = last_of_month(on);
        next.on = next.on ? std::min(*next.on, on) : on;
      }
    }
  }
  if (!next.more && !next.on) return std::nullopt;
  return next;
}

}  // namespace service
