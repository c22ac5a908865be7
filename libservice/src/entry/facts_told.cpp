// What one fact did: to its meter, to what it strikes; what to write on a new element.
#include <algorithm>
#include <set>
#include <utility>

#include "entry/added_ids.h"
#include "service/entry.h"
#include "service/usage.h"

namespace service {
namespace {

const Meter* meter_of(const Fact& fact, const Machine& machine) {
  return fact.meter.empty() ? machine.first_meter() : machine.meter(fact.meter);
}

std::optional<ShownOn> newest_of(const Machine& machine, const Meter& meter, std::span<const Fact> facts) {
  const MeterHistory history(machine, meter, facts);
  if (history.empty()) return std::nullopt;
  const Knot& knot = history.knots().back();
  return ShownOn{history.shown_at(knot.usage), knot.day};
}

}  // namespace

std::optional<MeterStep> meter_step(const Entered& entered, const Fact& fact) {
  const bool shows = fact.kind == FactKind::reading || fact.kind == FactKind::service;
  const Machine* machine = entered.is->fleet().machine(fact.machine);
  const Meter* meter = machine == nullptr ? nullptr : machine->meter(fact.meter);
  if (!shows || meter == nullptr || !fact.at || !fact.on.whole_day()) return std::nullopt;
  MeterStep step{machine->key, meter->name, meter->unit, std::nullopt, *fact.at, std::nullopt, 0};
  const auto known = entered.was->facts_of(machine->key);
  const auto events = meter_events(*machine, *meter, known);
  const MeterEvent* last = nullptr;
  for (const MeterEvent& event : events) {
    if (event.day > fact.on.first) continue;
    last = &event;
    // What it shows, though a value that was read without its tenths says less.
    step.from = event.fresh ? *event.fresh : std::max(step.from.value_or(event.shown), event.shown);
  }
  if (last == nullptr) return step;
  step.days = days_between(last->day, fact.on.first);
  const auto from = MeterHistory(*machine, *meter, known).on(last->day);
  const auto to = MeterHistory(*machine, *meter, entered.is->facts_of(machine->key)).usage_of(fact.id);
  if (from && to) step.used = *to - *from;
  return step;
}

std::vector<NewestReading> newest_readings(const Entered& entered) {
  std::set<std::pair<std::string, std::string>> meters;
  for (const Fact& fact : entered.added) {
    if (fact.at && fact.kind != FactKind::put_off) meters.emplace(fact.machine, fact.meter);
  }
  std::vector<NewestReading> newest;
  for (const auto& [key, name] : meters) {
    const Machine* machine = entered.is->fleet().machine(key);
    const Meter* meter = machine == nullptr ? nullptr : machine->meter(name);
    if (meter == nullptr) continue;
    newest.push_back({key, name, meter->unit, newest_of(*machine, *meter, entered.was->facts_of(key)),
                      newest_of(*machine, *meter, entered.is->facts_of(key))});
  }
  return newest;
}

Cure confirmation_of(const Fact& value, const Machine& machine) {
  Cure cure{CureKind::confirm_value, {{"machine", machine.key}}};
  const Meter* const first = machine.first_meter();
  if (!value.meter.empty() && first != nullptr && value.meter != first->name) {
    cure.values.emplace_back("meter", value.meter);
  }
  if (value.at) cure.values.emplace_back("at", to_text(*value.at));
  if (value.last) cure.values.emplace_back("last", to_text(*value.last));
  if (value.first) cure.values.emplace_back("first", to_text(*value.first));
  cure.values.emplace_back("on", to_text(value.on));
  return cure;
}

std::optional<Cure> confirmation_of(const Entered& entered, const Gap& doubt) {
  const Machine* machine = entered.is->fleet().machine(doubt.machine);
  if (machine == nullptr || doubt.facts.empty()) return std::nullopt;
  const auto facts = entered.is->facts_of(doubt.machine);
  const auto value =
      std::find_if(facts.begin(), facts.end(), [&](const Fact& fact) { return fact.id == doubt.facts.front(); });
  return value == facts.end() ? std::nullopt : std::optional(confirmation_of(*value, *machine));
}

const Fact* target_of(const Entered& entered, const Fact& strike) {
  const auto found = std::find_if(entered.known->begin(), entered.known->end(),
                                  [&](const Fact& known) { return strike.strikes && known.id == *strike.strikes; });
  return found == entered.known->end() ? nullptr : &*found;
}

std::vector<const Point*> checks_owed(const Entered& entered) {
  std::vector<const Point*> owed;
  if (entered.after == nullptr) return owed;
  const AddedIds added(entered.added);
  for (const Point& point : entered.after->points) {
    if (point.follow_up == nullptr || !point.fitted || !point.fitted->fact) continue;
    if (added.contains(*point.fitted->fact)) owed.push_back(&point);
  }
  return owed;
}

bool was_locked_off(const Entered& entered) {
  return std::any_of(entered.added.begin(), entered.added.end(), [&](const Fact& fact) {
    const Fleet& fleet = entered.is->fleet();
    const Machine* machine = fact.kind == FactKind::service ? fleet.machine(fact.machine) : nullptr;
    const Task* task = machine == nullptr ? nullptr : task_named(fleet.schedule_of(*machine), fact.task).task;
    return task != nullptr && std::find(task->all_cautions.begin(), task->all_cautions.end(), "automatic-start") !=
                                  task->all_cautions.end();
  });
}

std::optional<ElementLabel> element_label(const Fact& service, const Fleet& fleet) {
  const Machine* machine = fleet.machine(service.machine);
  if (machine == nullptr || !puts_in_new(*machine, task_named(fleet.schedule_of(*machine), service.task))) return {};
  const Meter* meter = meter_of(service, *machine);
  if (meter == nullptr) return ElementLabel{service.on, service.at, ""};
  return ElementLabel{service.on, service.at, meter->unit, meter == machine->first_meter() ? "" : meter->name};
}

std::vector<Fact> checks_after(const Fleet& fleet, const Machine& machine, std::span<const Fact> services) {
  std::vector<Fact> checks;
  const auto add = [&](const MachineTask& task, Fact fact) {
    // Of a task that is done with another one: at the position where that was done, or at all where it has none.
    const auto& positions = task.positions;
    if (positions.empty()) fact.position.clear();
    if (!fact.position.empty() && std::find(positions.begin(), positions.end(), fact.position) == positions.end())
      return;
    fact.found.reset();
    for (const FollowUp& check : task.task->follow_ups) {
      fact.task = task.task->name + '/' + check.name;
      const bool there = std::any_of(checks.begin(), checks.end(), [&](const Fact& other) {
        return other.task == fact.task && other.position == fact.position;
      });
      if (!there) checks.push_back(fact);
    }
  };
  for (const Fact& service : services) {
    for (const std::string& name : done_with(fleet.schedule_of(machine), service.task)) {
      if (const auto task = task_of(fleet, machine, name)) add(*task, service);
    }
  }
  return checks;
}

}  // namespace service
