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

std::string name_beside_first(const Machine& machine, const std::string& meter) {
  const Meter* first = machine.first_meter();
  return first != nullptr && first->name == meter ? "" : meter;
}

void add_use(ElementDueAgain& next, const Machine& machine, const UsageLimb& limb) {
  const Meter* meter = limb.meter ? machine.meter(*limb.meter) : machine.first_meter();
  if (meter == nullptr) return;
  const std::string name = name_beside_first(machine, meter->name);
  const auto same =
      std::find_if(next.uses.begin(), next.uses.end(), [&](const ElementUse& use) { return use.meter == name; });
  if (same == next.uses.end()) {
    next.uses.push_back({limb.every, meter->unit, name});
  } else {
    same->more = std::min(same->more, limb.every);
  }
}

}  // namespace

std::optional<ElementLabel> blank_label(const Fleet& fleet, const Machine& machine, const NamedTask& named) {
  if (named.task == nullptr || !puts_in_new(machine, named)) return std::nullopt;
  const Meter* meter = meter_of(fleet, machine, *named.task);
  if (meter == nullptr) return ElementLabel{};
  return ElementLabel{std::nullopt, std::nullopt, meter->unit, name_beside_first(machine, meter->name)};
}

std::optional<ElementDueAgain> due_again(const Fleet& fleet, const Machine& machine, const Task& task, Day done_on) {
  const auto own = task_of(fleet, machine, task.name);
  if (!own || task.counts_from != CountsFrom::done) return std::nullopt;
  ElementDueAgain next;
  for (const LimbChoice& choice : own->every) {
    for (const Limb& limb : choice.candidates) {
      if (const auto* usage = std::get_if<UsageLimb>(&limb)) {
        add_use(next, machine, *usage);
      } else if (const auto* calendar = std::get_if<CalendarLimb>(&limb)) {
        Day on = after(done_on, calendar->every);
        if (task.until_month_end) on = last_of_month(on);
        next.on = next.on ? std::min(*next.on, on) : on;
      } else if (const auto* changes = std::get_if<ChangesLimb>(&limb)) {
        next.changes.push_back({changes->task, changes->count});
      } else if (const auto* season = std::get_if<SeasonLimb>(&limb)) {
        next.seasons.push_back({season->season, season->lead_days});
      }
    }
  }
  if (next.uses.empty() && !next.on && next.changes.empty() && next.seasons.empty()) return std::nullopt;
  return next;
}

}  // namespace service
