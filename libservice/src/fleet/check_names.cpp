// Names that are mentioned must exist. Where a file or a section could not be read, names that may have been in it
// are not complained about.
#include <fmt/format.h>

#include <unordered_map>
#include <unordered_set>

#include "fleet/draft.h"

namespace service::fleet {
namespace {

// What stands behind a noun, with the hint for each wrong name worked out once: a column of a register can hold the
// same wrong name a hundred thousand times.
class Names {
 public:
  explicit Names(std::vector<std::string> names) : names_(std::move(names)), set_(names_.begin(), names_.end()) {}

  bool has(const std::string& name) const { return set_.contains(name); }
  const std::string& advice(const std::string& name, std::string_view otherwise) {
    const auto [found, fresh] = advice_.try_emplace(name);
    if (fresh) found->second = nearest_or(name, names_, std::string(otherwise));
    return found->second;
  }

 private:
  std::vector<std::string> names_;
  std::unordered_set<std::string> set_;
  std::unordered_map<std::string, std::string> advice_;
};

struct Complaint {
  const char* code;
  std::string_view noun;
  std::string_view otherwise;
};

void check(const std::vector<Mention>& mentions, Names& names, const Complaint& complaint, Diagnostics& diagnostics) {
  for (const Mention& mention : mentions) {
    if (names.has(mention.name)) continue;
    diagnostics.error(complaint.code, mention.spot,
                      fmt::format("there is no {} `{}`", complaint.noun, cleaned(mention.name)),
                      names.advice(mention.name, complaint.otherwise));
  }
}

template <class Things, class NameOf>
Names names_of(const Things& things, NameOf name_of) {
  std::vector<std::string> names;
  for (const auto& thing : things) names.push_back(name_of(thing));
  return Names(std::move(names));
}

Names tasks_of(const ScheduleDraft& schedule) {
  return names_of(schedule.tasks, [](const TaskDraft& task) { return task.task.name; });
}

void check_schedules(Draft& draft, Diagnostics& diagnostics) {
  std::vector<std::string> names(draft.unread_schedules.begin(), draft.unread_schedules.end());
  for (const ScheduleDraft& schedule : draft.schedules) names.push_back(schedule.schedule.name);
  Names known(std::move(names));
  std::vector<Mention> mentions;
  for (const MachineDraft& machine : draft.machines) {
    if (!machine.machine.schedule.empty()) mentions.push_back({machine.machine.schedule, machine.schedule});
  }
  check(mentions, known,
        {code::unknown_schedule, "schedule", "write it as schedules/NAME.yaml, or name one that is there"},
        diagnostics);
}

void check_tasks(const Draft& draft, Diagnostics& diagnostics) {
  std::unordered_map<std::string, std::pair<const ScheduleDraft*, Names>> by_schedule;
  for (const ScheduleDraft& schedule : draft.schedules) {
    const auto added = by_schedule.try_emplace(schedule.schedule.name, &schedule, tasks_of(schedule));
    Names& names = added.first->second.second;
    if (schedule.tasks_unsure) continue;
    const std::string noun = fmt::format("task in the schedule `{}` called", schedule.schedule.name);
    const Complaint complaint{code::unknown_task, noun, "name a task of the same schedule"};
    for (const TaskDraft& task : schedule.tasks) {
      check(task.covers, names, complaint, diagnostics);
      check(task.limbs.changes, names, complaint, diagnostics);
    }
  }
  for (const MachineDraft& machine : draft.machines) {
    const auto found = by_schedule.find(machine.machine.schedule);
    if (found == by_schedule.end() || found->second.first->tasks_unsure) continue;
    const std::string noun = fmt::format("task in the schedule `{}` called", machine.machine.schedule);
    const Complaint complaint{code::unknown_task, noun, "name a task of the machine's schedule"};
    for (const ChangeDraft& change : machine.changes) {
      check({{change.change.task, change.spot}}, found->second.second, complaint, diagnostics);
      check(change.limbs.changes, found->second.second, complaint, diagnostics);
    }
  }
}

void check_changes_of_itself(const std::string& task, const LimbNotes& limbs, Diagnostics& diagnostics) {
  for (const Mention& change : limbs.changes) {
    if (change.name != task) continue;
    diagnostics.error(code::changes_of_itself, change.spot,
                      fmt::format("`{}` cannot count changes of itself", cleaned(task)),
                      "name the task whose changes are counted");
  }
}

}  // namespace

void check_names(Draft& draft, Diagnostics& diagnostics) {
  check_schedules(draft, diagnostics);
  check_tasks(draft, diagnostics);
  for (const ScheduleDraft& schedule : draft.schedules) {
    for (const TaskDraft& task : schedule.tasks) check_changes_of_itself(task.task.name, task.limbs, diagnostics);
  }
  for (const MachineDraft& machine : draft.machines) {
    for (const ChangeDraft& change : machine.changes)
      check_changes_of_itself(change.change.task, change.limbs, diagnostics);
  }
  const auto key_of = [](const auto& thing) { return thing.key; };
  if (!draft.unsure_of(Noun::site)) {
    Names sites = names_of(draft.fleet.sites, key_of);
    check(draft.mentions_of(Noun::site), sites, {code::unknown_site, "site", "add it under `sites:` in fleet.yaml"},
          diagnostics);
  }
  if (!draft.unsure_of(Noun::season)) {
    Names seasons = names_of(draft.fleet.seasons, key_of);
    check(draft.mentions_of(Noun::season), seasons,
          {code::unknown_season, "season", "add it under `seasons:` in fleet.yaml"}, diagnostics);
  }
  if (!draft.unsure_of(Noun::machine)) {
    Names machines = names_of(draft.machines, [](const MachineDraft& machine) { return machine.machine.key; });
    check(draft.mentions_of(Noun::machine), machines,
          {code::unknown_machine, "machine", "add it under `machines:` in fleet.yaml, or to register.csv"},
          diagnostics);
  }
}

}  // namespace service::fleet
