#include "entry/untold_values.h"

#include <algorithm>
#include <optional>
#include <set>
#include <string>

#include "entry/meters_counted.h"
#include "service/usage.h"

namespace service {
namespace {

// The meters by which a service comes due again, and the checks that it asks for and that were not done with it.
std::set<std::string> meters_wanted(const Entered& entered, const Fact& service, const Machine& machine) {
  const Fleet& fleet = entered.is->fleet();
  std::set<std::string> meters;
  if (service.task.find('/') != std::string::npos) return meters;  // a check is done once
  meters = meters_counted(fleet, machine, service.task);
  const Task* task = fleet.schedule_of(machine).task(service.task);
  if (task == nullptr) return meters;
  for (const FollowUp& follow_up : task->follow_ups) {
    const std::string check = task->name + '/' + follow_up.name;
    const bool done = std::any_of(entered.added.begin(), entered.added.end(), [&](const Fact& fact) {
      return fact.kind == FactKind::service && fact.task == check && fact.position == service.position;
    });
    if (!done) meters.merge(meters_counted(fleet, machine, check));
  }
  return meters;
}

// What a meter was known to show on a day, or last before it; nothing where more is known than that.
std::optional<UntoldValue> untold_value(const Entered& entered, const Fact& service, const Machine& machine,
                                        const Meter& meter) {
  const MeterHistory history(machine, meter, entered.is->facts_of(machine.key));
  const Day day = service.on.first;
  UntoldValue untold{machine.key, meter.name, meter.unit, {service.task}, day, std::nullopt};
  const auto known = history.on(day);
  if (!known) return untold;
  const Knot& last = history.knots().back();
  if (last.day >= day) return std::nullopt;  // read on that day, or since: use is taken from the line between
  untold.last = ShownOn{history.shown_at(last.usage), last.day};
  return untold;
}

}  // namespace

std::vector<UntoldValue> untold_values(const Entered& entered) {
  std::vector<UntoldValue> untold;
  for (const Fact& fact : entered.added) {
    const Machine* machine = entered.is->fleet().machine(fact.machine);
    if (fact.kind != FactKind::service || !fact.on.whole_day() || machine == nullptr) continue;
    for (const std::string& name : meters_wanted(entered, fact, *machine)) {
      const auto told = std::find_if(untold.begin(), untold.end(), [&](const UntoldValue& other) {
        return other.machine == machine->key && other.meter == name && other.on == fact.on.first;
      });
      if (told == untold.end()) {
        if (auto value = untold_value(entered, fact, *machine, *machine->meter(name))) {
          untold.push_back(std::move(*value));
        }
      } else if (std::find(told->tasks.begin(), told->tasks.end(), fact.task) == told->tasks.end()) {
        told->tasks.push_back(fact.task);
      }
    }
  }
  return untold;
}

}  // namespace service
