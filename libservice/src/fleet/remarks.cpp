// What is odd in a fleet, but no mistake. Each thing is said once, where it comes first.
#include <fmt/format.h>

#include <unordered_map>
#include <unordered_set>

#include "fleet/draft.h"

namespace service::fleet {
namespace {

using TaskByName = std::unordered_map<std::string, const Task*>;

void remark_on_examinations(const TaskDraft& task, const TaskByName& tasks, Diagnostics& diagnostics) {
  if (task.task.competent_person) return;
  for (const Mention& covered : task.covers) {
    const auto found = tasks.find(covered.name);
    if (found == tasks.end() || !found->second->competent_person) continue;
    diagnostics.remark(code::examination_covered, covered.spot,
                       fmt::format("`{}` needs a competent person, so doing `{}` does not count as doing it",
                                   covered.name, task.task.name),
                       "leave it out of `covers:`, or let `by-whom: competent-person` hold for both");
  }
}

void remark_on_tasks(const Draft& draft, Diagnostics& diagnostics) {
  for (const ScheduleDraft& schedule : draft.schedules) {
    TaskByName tasks;
    for (const TaskDraft& task : schedule.tasks) tasks.emplace(task.task.name, &task.task);
    for (const TaskDraft& task : schedule.tasks) remark_on_examinations(task, tasks, diagnostics);
  }
}

void remark_on_conditions(const Draft& draft, Diagnostics& diagnostics) {
  const std::vector<std::string> named(draft.conditions_named.begin(), draft.conditions_named.end());
  std::unordered_set<std::string> seen;
  for (const Mention& condition : draft.conditions) {
    if (draft.conditions_named.contains(condition.name) || !seen.insert(condition.name).second) continue;
    diagnostics.remark(code::condition_unused, condition.spot,
                       fmt::format("no task says under `in:` what `{}` changes", condition.name),
                       nearest_or(condition.name, named, "add it to a task, such as `in: {dusty: {hours: 125}}`"));
  }
}

// A fleet that keeps no list of parts needs none.
void remark_on_parts(const Draft& draft, Diagnostics& diagnostics) {
  if (!draft.lists_parts) return;
  std::unordered_set<std::string> listed;
  std::vector<std::string> names;
  for (const Mention& part : draft.parts_listed) {
    listed.insert(part.name);
    names.push_back(part.name);
  }
  std::unordered_set<std::string> used;
  for (const Mention& part : draft.mentions[static_cast<std::size_t>(Noun::part)]) {
    if (!used.insert(part.name).second || listed.contains(part.name)) continue;
    diagnostics.remark(code::part_not_listed, part.spot,
                       fmt::format("`{}` is not among the parts of fleet.yaml", cleaned(part.name)),
                       nearest_or(part.name, names, "add it under `parts:`"));
  }
  for (const Mention& part : draft.parts_listed) {
    if (used.contains(part.name)) continue;
    diagnostics.remark(code::part_not_used, part.spot, fmt::format("no task uses the part `{}`", cleaned(part.name)),
                       "name it under `parts:` or `fluids:` of a task, or leave it out");
  }
}

// Messages and lists by site leave it out. What has left, or will, is on its way to none.
void remark_on_sites(const Draft& draft, Diagnostics& diagnostics) {
  constexpr std::size_t most_named = 8;
  const MachineDraft* first = nullptr;
  std::vector<std::string> names;
  std::size_t count = 0;
  bool any_has_one = false;
  for (const MachineDraft& machine : draft.machines) {
    if (machine.machine.left) continue;
    if (!machine.machine.site.empty()) {
      any_has_one = true;
      continue;
    }
    if (first == nullptr) first = &machine;
    if (++count <= most_named) names.push_back(machine.machine.key);
  }
  if (!any_has_one || first == nullptr) return;
  std::string message = fmt::format("{} no site, so no list or message by site holds {}: {}",
                                    counted(static_cast<std::int64_t>(count), "machine has", "machines have"),
                                    count == 1 ? "it" : "them", fmt::join(names, ", "));
  if (names.size() < count) message += fmt::format(" and {} more", count - names.size());
  diagnostics.remark(code::machine_without_site, first->key, std::move(message),
                     "say under `site:` where each stands, or read the mail of the whole fleet as well");
}

}  // namespace

void remark_on(const Draft& draft, Diagnostics& diagnostics) {
  remark_on_safety(draft, diagnostics);
  remark_on_tasks(draft, diagnostics);
  remark_on_conditions(draft, diagnostics);
  remark_on_parts(draft, diagnostics);
  remark_on_sites(draft, diagnostics);
}

}  // namespace service::fleet
