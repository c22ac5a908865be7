#include "workload/job_tasks.h"

#include <algorithm>
#include <array>
#include <functional>

#include "service/due_list.h"
#include "service/snapshot.h"

namespace service {

std::string_view to_text(JobStage stage) {
  constexpr std::array<std::string_view, 6> names{"cold", "still", "from-cold", "running", "warm", "trial"};
  return names[static_cast<std::size_t>(stage)];
}

std::string_view to_text(RunRule rule) {
  constexpr std::array<std::string_view, 6> names{"free",       "once-mended", "after-mending",
                                                  "not-at-all", "at-rest",     "once-put-back"};
  return names[static_cast<std::size_t>(rule)];
}

namespace load {
namespace {

constexpr std::string_view engine_running = "engine-running";
constexpr std::string_view hot_fluid = "hot-fluid";

// A service at one position, or at all where it names none, reaches a point of its machine there or at none in
// particular.
bool at_same_place(const Point& whole, const Point& part) {
  if (whole.machine != part.machine) return false;
  return whole.position.empty() || part.position.empty() || whole.position == part.position;
}

bool includes(const Fleet& fleet, const Point& whole, const Point& part) {
  if (whole.follow_up != nullptr || part.follow_up != nullptr || whole.task == part.task) return false;
  if (!at_same_place(whole, part)) return false;
  const auto names = counted_as(fleet.schedule_of(*whole.machine), part.task->name);
  return std::find(names.begin(), names.end(), whole.task->name) != names.end();
}

// A check that was owed after an earlier service is not for doing where that is done again: it will be asked for anew.
bool renews(const Fleet& fleet, const Point& service, const Point& check) {
  if (service.follow_up != nullptr || check.follow_up == nullptr || !at_same_place(service, check)) return false;
  const auto names = counted_as(fleet.schedule_of(*service.machine), check.task->name);
  return std::find(names.begin(), names.end(), service.task->name) != names.end();
}

// What is due does not wait with one that is put off.
bool goes_with(const Fleet& fleet, const Point& whole, const Point& part) {
  return includes(fleet, whole, part) && !(whole.put_off && !part.put_off && is_due(part));
}

bool needs_cold(const Task& task) {
  return std::any_of(task.needs.begin(), task.needs.end(),
                     [](const std::string& need) { return folded_name(need).find("cold") != std::string::npos; });
}

// By what its own cautions say; that of a task which includes others is its own.
JobStage stage_of(const Machine& machine, const Task& task) {
  const bool runs = holds(task.cautions, engine_running);
  const bool hot = holds(task.cautions, hot_fluid);
  if (holds(task.cautions, "pressure-cap") || holds(task.cautions, "fuel-vapour") || needs_cold(task)) {
    return runs || hot ? JobStage::from_cold : JobStage::cold;
  }
  if (hot) return JobStage::warm;
  if (!runs) return JobStage::still;
  return task.safety && !puts_in_new(machine, {&task, nullptr}) ? JobStage::trial : JobStage::running;
}

std::string notes_of(const Machine& machine, const Task& task) {
  const TaskChange* change = machine.change_to(task.name);
  return change != nullptr && change->notes ? *change->notes : task.notes;
}

void add_measures(SheetTask& entry, const Point& point) {
  for (const LimbStanding& limb : point.limbs) {
    if (limb.kind == LimbKind::measured) entry.measures.push_back({&point, &limb});
  }
}

void add_included(SheetTask& entry, const Fleet& fleet, const Machine& machine, const std::vector<const Point*>& points,
                  const std::vector<const Point*>& all) {
  const Schedule& schedule = fleet.schedule_of(machine);
  const auto reached = [&](const Point& part) {
    return std::any_of(entry.points.begin(), entry.points.end(),
                       [&](const Point* whole) { return includes(fleet, *whole, part); });
  };
  for (const std::string& name : done_with(schedule, entry.task->name)) {
    const Task* task = schedule.task(name);
    if (task == entry.task) continue;
    const bool there = std::any_of(all.begin(), all.end(), [&](const Point* point) {
      return point->task == task && point->follow_up == nullptr && reached(*point);
    });
    if (!there) continue;
    SheetIncluded included{task, notes_of(machine, *task), {}, {}};
    for (const std::string& step : task->steps) {
      const auto repeated = std::find_if(entry.steps.begin(), entry.steps.end(),
                                         [&](const SheetStep& own) { return own.of == nullptr && own.text == step; });
      if (repeated == entry.steps.end()) {
        included.steps.push_back(step);
      } else {
        repeated->of = task;
      }
    }
    for (const Point* point : points) {
      if (point->task == task && reached(*point)) included.points.push_back(point);
    }
    entry.safety = entry.safety || task->safety;
    entry.competent_person = entry.competent_person || task->competent_person;
    for (const Point* point : included.points) {
      if (is_safety(*point) && point->standing == Standing::overdue) entry.overdue_safety.push_back(point);
    }
    for (const Point* point : all) {
      if (point->task == task && point->follow_up == nullptr && reached(*point)) add_measures(entry, *point);
    }
    add_each(entry.needs, task->needs);
    add_each(entry.tools, task->tools);
    for (const FollowUp& check : task->follow_ups) entry.checks.push_back({task, &check});
    entry.included.push_back(std::move(included));
  }
}

// As much as at so many places.
void times(Resources& resources, std::int64_t places) {
  if (resources.time) *resources.time *= places;
  for (auto& part : resources.parts) part.second.hundredths *= places;
  for (auto& fluid : resources.fluids) fluid.second.amount.hundredths *= places;
}

SheetTask task_for(const Fleet& fleet, const Machine& machine, const Point& point) {
  SheetTask entry;
  entry.task = point.task;
  entry.check = point.follow_up;
  entry.name = point.name;
  entry.safety = is_safety(point);
  entry.competent_person = by_competent_person(point);
  entry.resources = resources_of(machine, *point.task, point.follow_up);
  entry.notes = notes_of(machine, *point.task);
  entry.needs = point.task->needs;
  entry.tools = tools_of(*point.task, point.follow_up);
  entry.says_running = point.follow_up == nullptr && holds(point.task->all_cautions, engine_running);
  entry.runs = point.follow_up != nullptr || runs_it(*point.task);
  if (point.follow_up != nullptr) return entry;
  for (const std::string& step : point.task->steps) entry.steps.push_back({step, nullptr});
  entry.stage = stage_of(machine, *point.task);
  for (const FollowUp& check : point.task->follow_ups) entry.checks.push_back({point.task, &check});
  entry.renews = renews(machine, {point.task, nullptr});
  entry.label = blank_label(fleet, machine, {point.task, nullptr});
  return entry;
}

// What somebody put off, where that ends within the horizon.
const SheetWait* wait_of(const Point& point, const std::vector<SheetWait>& waits) {
  const auto found =
      std::find_if(waits.begin(), waits.end(), [&](const SheetWait& wait) { return wait.point == &point; });
  return found == waits.end() ? nullptr : &*found;
}

}  // namespace

bool holds(const std::vector<std::string>& names, std::string_view name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

bool runs_it(const Task& task) {
  return holds(task.all_cautions, engine_running) || holds(task.all_cautions, hot_fluid);
}

WaitEnd end_of(const SheetWait& wait) {
  const PutOff& put_off = *wait.point->put_off;
  if (!wait.by_use) return {wait.from, false, "", 0};
  return {wait.from, true, put_off.meter, put_off.at->hundredths};
}

std::optional<WaitEnd> end_of(const std::optional<SheetWait>& wait) {
  return wait ? std::optional(end_of(*wait)) : std::nullopt;
}

std::optional<WaitEnd> end_of(const SheetTask& entry) {
  return entry.is_later() ? std::optional(end_of(entry.waits.front())) : std::nullopt;
}

const std::vector<std::string>& tools_of(const Task& task, const FollowUp* check) {
  return check == nullptr || check->tools.empty() ? task.tools : check->tools;
}

void add_each(std::vector<std::string>& to, const std::vector<std::string>& names) {
  for (const std::string& name : names) {
    const bool there = std::any_of(to.begin(), to.end(), [&](const std::string& other) {
      return other == name || folded_name(other) == folded_name(name);
    });
    if (!there) to.push_back(name);
  }
}

std::vector<SheetTask> sheet_tasks(const Fleet& fleet, const Machine& machine, const Todo& todo, Day as_of) {
  const auto& [points, waits, all] = todo;
  std::vector<SheetTask> tasks;
  for (const Point* point : by_themselves(fleet, points)) {
    const SheetWait* const wait = wait_of(*point, waits);
    const auto end = wait == nullptr ? std::nullopt : std::optional(end_of(*wait));
    auto entry = std::find_if(tasks.begin(), tasks.end(), [&](const SheetTask& other) {
      return other.name == point->name && end_of(other) == end;
    });
    if (entry == tasks.end()) entry = tasks.insert(tasks.end(), task_for(fleet, machine, *point));
    entry->points.push_back(point);
    entry->sign_seen = entry->sign_seen || sign_was_seen(*point);
    if (wait != nullptr) entry->waits.push_back(*wait);
    entry->done_on = wait == nullptr ? as_of : wait->from;
  }
  for (SheetTask& entry : tasks) {
    times(entry.resources, static_cast<std::int64_t>(entry.points.size()));
    if (entry.check != nullptr) continue;
    for (const Point* point : entry.points) add_measures(entry, *point);
    add_included(entry, fleet, machine, points, all);
    if (entry.label) entry.again = due_again(fleet, machine, *entry.task, entry.done_on);
    for (const Point* check : all) {
      const bool again = std::any_of(entry.points.begin(), entry.points.end(),
                                     [&](const Point* point) { return renews(fleet, *point, *check); });
      if (again) entry.renewed_checks.push_back(check);
    }
  }
  return tasks;
}

}  // namespace load

std::vector<const Point*> by_themselves(const Fleet& fleet, const std::vector<const Point*>& points) {
  enum class Fate { open, stays, goes };
  std::vector<Fate> fates(points.size(), Fate::open);
  const std::function<bool(std::size_t)> goes = [&](std::size_t i) {  // no tasks cover each other in a ring
    for (std::size_t k = 0; k < points.size() && fates[i] == Fate::open; ++k) {
      if (load::goes_with(fleet, *points[k], *points[i]) && !goes(k)) fates[i] = Fate::goes;
    }
    if (fates[i] == Fate::open) fates[i] = Fate::stays;
    return fates[i] == Fate::goes;
  };
  std::vector<const Point*> kept;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const bool renewed = std::any_of(points.begin(), points.end(),
                                     [&](const Point* other) { return load::renews(fleet, *other, *points[i]); });
    if (!renewed && !goes(i)) kept.push_back(points[i]);
  }
  return kept;
}

}  // namespace service
