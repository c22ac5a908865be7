#include "snapshot/judge_names.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace service {
namespace {

template <class Range, class Key>
std::vector<std::string> names_of(const Range& range, Key key) {
  std::vector<std::string> names;
  for (const auto& item : range) names.push_back(item.*key);
  return names;
}

Diagnostic unknown_name(std::string code, const std::string& what, const std::string& written,
                        const std::vector<std::string>& names, const std::string& none) {
  return {std::move(code), what, names_instead(written, names, none)};
}

struct NamedTask {
  const Task* task = nullptr;
  const FollowUp* follow_up = nullptr;
};

NamedTask find_task(const Schedule& schedule, const std::string& name) {
  const auto slash = name.find('/');
  const Task* task = schedule.task(name.substr(0, slash));
  if (task == nullptr || slash == std::string::npos) return {task, nullptr};
  for (const FollowUp& follow_up : task->follow_ups) {
    if (follow_up.name == name.substr(slash + 1)) return {task, &follow_up};
  }
  return {};
}

Diagnostic never_put_off(std::string code, std::string_view is, std::string hint, const Fact& fact,
                         const Machine& machine) {
  return {std::move(code), fmt::format("task `{}` of {} {} and cannot be put off", fact.task, machine.key, is),
          std::move(hint), std::nullopt,
          Severity::error, {{CureKind::take_out_of_use, {{"machine", machine.key}}}}};
}

std::optional<Diagnostic> judge_task(const Fleet& fleet, const Machine& machine, const Fact& fact) {
  const Schedule& schedule = fleet.schedule_of(machine);
  const NamedTask named = find_task(schedule, fact.task);
  if (named.task == nullptr) {
    std::vector<std::string> names;
    for (const Task& task : schedule.tasks) {
      names.push_back(task.name);
      for (const FollowUp& follow_up : task.follow_ups) names.push_back(task.name + '/' + follow_up.name);
    }
    return unknown_name("unknown-task", fmt::format("{} has no task `{}`", machine.key, fact.task), fact.task, names,
                        "its schedule has no tasks");
  }
  if (!fact.position.empty()) {
    const auto positions = task_of(fleet, machine, named.task->name)->positions;
    if (std::find(positions.begin(), positions.end(), fact.position) == positions.end()) {
      return unknown_name("unknown-position",
                          fmt::format("task `{}` of {} has no position `{}`", fact.task, machine.key, fact.position),
                          fact.position, positions, "this task has no positions; leave the position out");
    }
  }
  if (fact.kind == FactKind::service && named.follow_up == nullptr && named.task->competent_person && fact.by.empty()) {
    return Diagnostic{
        "needs-by",
        fmt::format("task `{}` of {} is done by a competent person, and nobody is named", fact.task, machine.key),
        "say who did it with `by`"};
  }
  if (fact.kind == FactKind::put_off && named.task->safety) {
    return never_put_off("safety-put-off", "is a safety task", "do it", fact, machine);
  }
  if (fact.kind == FactKind::put_off && named.task->competent_person && named.follow_up == nullptr) {
    return never_put_off("examination-put-off", "is for a competent person", "have it done", fact, machine);
  }
  return std::nullopt;
}

bool measures(const Fleet& fleet, const Machine& machine, std::string_view name) {
  for (const MachineTask& task : tasks_of(fleet, machine)) {
    for (const LimbChoice& choice : task.every) {
      const auto* measured = std::get_if<MeasuredLimb>(&choice.candidates.front());
      if (measured != nullptr && measured->name == name) return true;
    }
  }
  return false;
}

std::optional<Diagnostic> judge_sign(const Fleet& fleet, const Machine& machine, const Fact& fact,
                                     std::vector<std::string>& said) {
  const auto signs = listed_signs(fleet, machine);
  if (std::any_of(signs.begin(), signs.end(), [&](const ListedSign& sign) { return sign.name == fact.name; }))
    return std::nullopt;
  if (measures(fleet, machine, fact.name)) {
    return Diagnostic{"needs-value",
                      fmt::format("`{}` of {} is measured, and no value is given", fact.name, machine.key),
                      "give the value too: NAME=VALUE"};
  }
  std::string text = fmt::format("`{}` of {} is kept as seen, until somebody looks at it", fact.name, machine.key);
  if (const auto near = near_sign(fleet, machine, fact.name)) {
    text += fmt::format("; a task comes due on `{}`, if that was meant", *near);
  }
  said.push_back(std::move(text));
  return std::nullopt;
}

// A look answers a sign that is listed, or that somebody saw.
std::optional<Diagnostic> judge_look(const Fleet& fleet, const Machine& machine, const Fact& fact,
                                     const SignsSeen& seen) {
  const auto signs = listed_signs(fleet, machine);
  const auto listed =
      std::find_if(signs.begin(), signs.end(), [&](const ListedSign& sign) { return sign.name == fact.name; });
  if (listed != signs.end() && listed->safety && fact.by.empty()) {
    return Diagnostic{
        "needs-by",
        fmt::format("`{}` of {} is a sign of a safety task, and nobody is named who looked", fact.name, machine.key),
        "say who looked with `by`"};
  }
  const auto of_machine = seen.find(machine.key);
  std::vector<std::string> names = of_machine == seen.end() ? std::vector<std::string>{} : of_machine->second;
  const bool was_seen = std::find(names.begin(), names.end(), fact.name) != names.end();
  if (listed != signs.end() || was_seen) return std::nullopt;
  for (const ListedSign& sign : signs) names.push_back(sign.name);
  return unknown_name("unknown-sign", fmt::format("nobody saw `{}` of {}", fact.name, machine.key), fact.name, names,
                      "no sign of it was seen");
}

std::optional<Diagnostic> judge_measurement(const Fleet& fleet, const Machine& machine, Fact& fact,
                                            std::vector<std::string>& said) {
  std::vector<std::string> names;
  std::vector<std::string> units;
  std::vector<std::string> positions;
  for (const MachineTask& task : tasks_of(fleet, machine)) {
    for (const LimbChoice& choice : task.every) {
      const auto* measured = std::get_if<MeasuredLimb>(&choice.candidates.front());
      if (measured == nullptr) continue;
      names.push_back(measured->name);
      if (measured->name != fact.name) continue;
      units.push_back(measured->unit);
      positions.insert(positions.end(), task.positions.begin(), task.positions.end());
    }
  }
  if (units.empty()) {
    said.push_back(fmt::format("the value `{}` of {} is kept, but no task has a limit for it; {}", fact.name,
                               machine.key, names_instead(fact.name, names, "its schedule measures nothing")));
    return std::nullopt;
  }
  if (fact.unit.empty()) fact.unit = units.front();
  if (std::find(units.begin(), units.end(), fact.unit) == units.end()) {
    return Diagnostic{"other-unit",
                      fmt::format("`{}` of {} has its limit in {}, and this is in {}", fact.name, machine.key,
                                  units.front(), fact.unit),
                      fmt::format("give the value in {}", units.front())};
  }
  // A value at a position that its tasks do not have would count for none of them.
  if (!fact.position.empty() && std::find(positions.begin(), positions.end(), fact.position) == positions.end()) {
    return unknown_name(
        "unknown-position",
        fmt::format("`{}` of {} is not measured at a position `{}`", fact.name, machine.key, fact.position),
        fact.position, positions, "it is measured at no position in particular; leave the position out");
  }
  return std::nullopt;
}

// Completes the meter and, where the fact shows a value, makes sure that there is one to show it.
std::optional<Diagnostic> judge_meter(const Machine& machine, Fact& fact) {
  const bool shows = fact.at.has_value() || fact.kind == FactKind::meter_change;
  if (!shows || fact.kind == FactKind::put_off) return std::nullopt;
  if (fact.meter.empty() && machine.first_meter() != nullptr) fact.meter = machine.first_meter()->name;
  const Meter* meter = machine.meter(fact.meter);
  if (meter == nullptr) {
    const std::string what = fact.meter.empty() ? machine.key + " has no meter"
                                                : fmt::format("{} has no meter `{}`", machine.key, fact.meter);
    return unknown_name("unknown-meter", what, fact.meter, names_of(machine.meters, &Meter::name),
                        "leave the value out, or give the machine a meter in the fleet file");
  }
  for (const auto& shown : {fact.at, fact.last, fact.first}) {
    if (shown && meter->rolls_over_at && *shown > *meter->rolls_over_at) {
      return Diagnostic{"past-roll-over",
                        fmt::format("meter `{}` of {} cannot show {}: it rolls over at {}", meter->name, machine.key,
                                    to_text(*shown), to_text(*meter->rolls_over_at)),
                        "mend the value, or `rolls-over-at` in the fleet file"};
    }
  }
  return std::nullopt;
}

std::optional<Diagnostic> judge_days(const Machine& machine, const Fact& fact, Day today) {
  if (auto wrong = judge_future(fact, today)) return wrong;
  if (machine.start.kind == StartKind::in_service && fact.on.last < machine.start.on.first) {
    return Diagnostic{"before-machine",
                      fmt::format("{} is before {} went into service on {}", to_text(fact.on), machine.key,
                                  to_text(machine.start.on)),
                      "mend the day, or `in-service` in the fleet file"};
  }
  if (machine.left && fact.on.first > *machine.left) {
    return Diagnostic{"after-left",
                      fmt::format("{} is after {} left on {}", to_text(fact.on), machine.key, to_text(*machine.left)),
                      "mend the day, or `left` in the fleet file"};
  }
  if (fact.until && *fact.until <= fact.on.first) {
    return Diagnostic{"until-past", fmt::format("`until` {} is not after {}", to_text(*fact.until), to_text(fact.on)),
                      "give a later day"};
  }
  return std::nullopt;
}

std::optional<Diagnostic> judge_count(const Fleet& fleet, const Fact& fact, Day today) {
  if (auto wrong = judge_future(fact, today)) return wrong;
  const auto names = names_of(fleet.parts, &Part::key);
  if (std::find(names.begin(), names.end(), fact.part) == names.end()) {
    return unknown_name("unknown-part", fmt::format("the fleet lists no part `{}`", fact.part), fact.part, names,
                        "list it under `parts:` in fleet.yaml");
  }
  if (fact.value && fact.value->millionths < 0) {
    return Diagnostic{"negative-count", "a count cannot be negative", "give the number of pieces on the shelf"};
  }
  return std::nullopt;
}

}  // namespace

SignsSeen signs_seen(std::span<const Fact> facts) {
  SignsSeen seen;
  for (const Fact& fact : facts) {
    if (fact.kind == FactKind::sign) seen[fact.machine].push_back(fact.name);
  }
  return seen;
}

std::optional<Diagnostic> judge_future(const Fact& fact, Day today) {
  if (fact.on.first <= today) return std::nullopt;
  return Diagnostic{"future", fmt::format("{} is after {}: a plan is not a fact", to_text(fact.on), to_text(today)),
                    "give the day on which it happened"};
}

std::optional<Diagnostic> judge_names(const Fleet& fleet, Fact& fact, Day today, const SignsSeen& seen,
                                      std::vector<std::string>& said) {
  if (fact.kind == FactKind::strike) return std::nullopt;
  if (fact.kind == FactKind::count) return judge_count(fleet, fact, today);
  const Machine* machine = fleet.machine(fact.machine);
  if (machine == nullptr) {
    return unknown_name("unknown-machine", fmt::format("there is no machine `{}` in this fleet", fact.machine),
                        fact.machine, names_of(fleet.machines, &Machine::key), "the fleet lists no machines");
  }
  if (auto wrong = judge_days(*machine, fact, today)) return wrong;
  if (auto wrong = judge_meter(*machine, fact)) return wrong;
  switch (fact.kind) {
    case FactKind::service:
    case FactKind::put_off:
      return judge_task(fleet, *machine, fact);
    case FactKind::sign:
      return judge_sign(fleet, *machine, fact, said);
    case FactKind::looked_at:
      return judge_look(fleet, *machine, fact, seen);
    case FactKind::measurement:
      return judge_measurement(fleet, *machine, fact, said);
    default:
      return std::nullopt;
  }
}

}  // namespace service
