#include "snapshot/judge_names.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "service/near_safety.h"

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

Diagnostic never_put_off(std::string code, std::string_view is, std::string hint, const Fact& fact,
                         const Machine& machine) {
  return {std::move(code), fmt::format("task `{}` of {} {} and cannot be put off", fact.task, machine.key, is),
          std::move(hint), std::nullopt,
          Severity::error, {{CureKind::take_out_of_use, {{"machine", machine.key}}}}};
}

std::optional<Diagnostic> judge_task(const Fleet& fleet, const Machine& machine, const Fact& fact) {
  const Schedule& schedule = fleet.schedule_of(machine);
  const NamedTask named = task_named(schedule, fact.task);
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
        "",
        std::nullopt,
        Severity::error,
        {{CureKind::tell_who, {{"did", "did it"}}}}};
  }
  if (fact.kind == FactKind::put_off && named.task->safety) {
    return never_put_off("safety-put-off", "is a safety task", "do it", fact, machine);
  }
  if (fact.kind == FactKind::put_off && named.task->competent_person && named.follow_up == nullptr) {
    return never_put_off("examination-put-off", "is for a competent person", "have it done", fact, machine);
  }
  return std::nullopt;
}

template <class Thing>
const Thing* find_named(const std::vector<Thing>& things, const std::string& name) {
  const auto found = std::find_if(things.begin(), things.end(), [&](const Thing& thing) { return thing.name == name; });
  return found == things.end() ? nullptr : &*found;
}

template <class Thing>
std::vector<std::string> names_in(const std::vector<Thing>& things) {
  return names_of(things, &Thing::name);
}

// What somebody may have meant by a name that is kept as seen; empty where nothing is near.
std::string if_meant(const Fleet& fleet, const Machine& machine, const Fact& fact) {
  const auto near = near_name(fleet, machine, fact.kind, fact.name);
  if (!near) return "";
  return fmt::format("{} `{}`, if that was meant", near->measured ? "there is a limit for" : "a task comes due on",
                     near->name);
}

std::optional<Diagnostic> judge_sign(const Fleet& fleet, const Machine& machine, Fact& fact,
                                     std::vector<std::string>& said) {
  if (auto known = name_written(fact.name, names_in(listed_signs(fleet, machine)))) {
    fact.name = std::move(*known);
    return std::nullopt;
  }
  if (const auto measured = name_written(fact.name, names_in(measured_names(fleet, machine)))) {
    return Diagnostic{"needs-value",
                      fmt::format("`{}` of {} is measured, and no value is given", *measured, machine.key),
                      "give the value too: NAME=VALUE"};
  }
  std::string text = fmt::format("`{}` of {} is kept as seen, until somebody looks at it", fact.name, machine.key);
  if (const std::string meant = if_meant(fleet, machine, fact); !meant.empty()) text += "; " + meant;
  said.push_back(std::move(text));
  return std::nullopt;
}

// A look answers a sign that is listed, or what is kept as seen.
std::optional<Diagnostic> judge_look(const Fleet& fleet, const Machine& machine, Fact& fact, WhatWasSeen& seen) {
  const auto signs = listed_signs(fleet, machine);
  const std::vector<Kept>& kept = seen.of(machine);
  std::vector<std::string> names = names_of(kept, &Kept::name);
  for (const ListedSign& sign : signs) names.push_back(sign.name);
  const auto known = name_written(fact.name, names);
  if (!known) {
    Diagnostic unknown = unknown_name("unknown-sign", fmt::format("nobody saw `{}` of {}", fact.name, machine.key),
                                      fact.name, names, "no sign of it was seen");
    const auto near = near_name(fleet, machine, FactKind::sign, fact.name);
    if (near && !near->measured) unknown.hint = did_you_mean(std::vector{near->name});
    return unknown;
  }
  fact.name = *known;
  const ListedSign* const listed = find_named(signs, fact.name);
  const bool safety =
      (listed != nullptr ? listed->safety : may_be_of_safety(fleet, machine, fact.name)) ||
      std::any_of(kept.begin(), kept.end(), [&](const Kept& one) { return one.safety && one.name == fact.name; });
  if (!safety || !fact.by.empty()) return std::nullopt;
  return Diagnostic{
      "needs-by",
      fmt::format("`{}` of {} is a sign of a safety task, and nobody is named who looked", fact.name, machine.key),
      "",
      std::nullopt,
      Severity::error,
      {{CureKind::tell_who, {{"did", "looked"}}}}};
}

std::optional<Diagnostic> judge_measurement(const Fleet& fleet, const Machine& machine, Fact& fact,
                                            std::vector<std::string>& said) {
  const auto all = measured_names(fleet, machine);
  const auto names = names_in(all);
  const auto known = name_written(fact.name, names);
  if (!known) {
    const std::string meant = if_meant(fleet, machine, fact);
    said.push_back(fmt::format(
        "no task of {} has a limit for `{}`: it is kept as seen, until somebody looks at it; {}", machine.key,
        fact.name, meant.empty() ? names_instead(fact.name, names, "its schedule measures nothing") : meant));
    return std::nullopt;
  }
  fact.name = *known;
  const MeasuredName& measured = *find_named(all, fact.name);
  const auto& [name, units, positions] = measured;
  if (fact.unit.empty()) fact.unit = units.front();
  if (std::find(units.begin(), units.end(), fact.unit) == units.end()) {
    return Diagnostic{
        "other-unit",
        fmt::format("`{}` of {} has its limit in {}, and this is in {}", name, machine.key, units.front(), fact.unit),
        fmt::format("give the value in {}", units.front())};
  }
  // A value at a position that its tasks do not have would count for none of them.
  if (!fact.position.empty() && std::find(positions.begin(), positions.end(), fact.position) == positions.end()) {
    return unknown_name("unknown-position",
                        fmt::format("`{}` of {} is not measured at a position `{}`", name, machine.key, fact.position),
                        fact.position, positions,
                        "it is measured at no position in particular; leave the position out");
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

void WhatWasSeen::add(const Fact& fact) {
  const bool may_be_kept =
      fact.kind == FactKind::sign || fact.kind == FactKind::measurement || fact.kind == FactKind::service;
  if (may_be_kept) facts_.push_back(&fact);
}

const std::vector<Kept>& WhatWasSeen::of(const Machine& machine) {
  const auto [at, is_new] = kept_.try_emplace(machine.key);
  if (!is_new) return at->second;
  for (const Fact* fact : facts_) by_machine_[fact->machine].push_back(fact);
  facts_.clear();
  const auto facts = by_machine_.find(machine.key);
  if (facts == by_machine_.end()) return at->second;
  const KeptAsSeen kept_as_seen(*fleet_, machine);
  for (const Fact* fact : facts->second) {
    if (auto kept = kept_as_seen.of(*fact)) at->second.push_back(std::move(*kept));
  }
  return at->second;
}

std::optional<Diagnostic> judge_future(const Fact& fact, Day today) {
  if (fact.on.first <= today) return std::nullopt;
  return Diagnostic{"future", fmt::format("{} is after {}: a plan is not a fact", to_text(fact.on), to_text(today)),
                    "give the day on which it happened"};
}

std::optional<Diagnostic> judge_names(const Fleet& fleet, Fact& fact, Day today, WhatWasSeen& seen,
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
