#include "workload/job_tasks.h"

#include <algorithm>
#include <array>
#include <functional>
#include <tuple>

#include "service/minding.h"
#include "service/snapshot.h"

namespace service {

std::string_view to_text(JobStage stage) {
  constexpr std::array<std::string_view, 6> names{"cold", "still", "from-cold", "running", "warm", "trial"};
  return names[static_cast<std::size_t>(stage)];
}

std::string_view to_text(RunRule rule) {
  constexpr std::array<std::string_view, 4> names{"free", "once-mended", "not-at-all", "once-put-back"};
  return names[static_cast<std::size_t>(rule)];
}

namespace load {
namespace {

// A service at one position, or at all where it names none, reaches a point there or at none in particular.
bool at_same_place(const Point& whole, const Point& part) {
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

bool holds(const std::vector<std::string>& names, std::string_view name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

bool needs_cold(const Task& task) {
  return std::any_of(task.needs.begin(), task.needs.end(),
                     [](const std::string& need) { return folded_name(need).find("cold") != std::string::npos; });
}

// By what its own cautions say; that of a task which includes others is its own.
JobStage stage_of(const Machine& machine, const Task& task) {
  const bool runs = holds(task.cautions, "engine-running");
  const bool hot = holds(task.cautions, "hot-fluid");
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
  if (point.follow_up != nullptr) return entry;
  for (const std::string& step : point.task->steps) entry.steps.push_back({step, nullptr});
  entry.stage = stage_of(machine, *point.task);
  entry.runs = holds(point.task->all_cautions, "engine-running");
  for (const FollowUp& check : point.task->follow_ups) entry.checks.push_back({point.task, &check});
  entry.label = blank_label(fleet, machine, {point.task, nullptr});
  return entry;
}

// It is for safety and overdue, or one that it includes is.
bool is_overdue_safety(const SheetTask& entry) {
  return !entry.overdue_safety.empty() || std::any_of(entry.points.begin(), entry.points.end(), [](const Point* point) {
    return is_safety(*point) && point->standing == Standing::overdue;
  });
}

bool is_or_includes(const SheetTask& entry, const Task* task) {
  return entry.task == task || std::any_of(entry.included.begin(), entry.included.end(),
                                           [&](const SheetIncluded& included) { return included.task == task; });
}

// What the page says is unsafe, and which of its tasks are about that.
class Unsafe {
 public:
  Unsafe(const MachineSheet& page, const Fleet& fleet) : page_(page) {
    for (const SeenSign* seen : page.seen) {
      if (const Task* task = found_bad_task(fleet, *seen)) found_bad_.push_back(task);
    }
    for (const SeenSign* seen : page.forbidden_by_seen) {
      const Task* task = found_bad_task(fleet, *seen);
      all_known_ = all_known_ && task != nullptr && is_done(*task);
    }
    for (const Point* point : page.forbidden_by) all_known_ = all_known_ && is_done(*point->task);
  }

  bool is_about(const SheetTask& entry) const {
    return entry.sign_seen || mends(entry) || (page_.out_of_use() && is_overdue_safety(entry));
  }

  // What follows the last repair is free, where tasks of the page mend each thing that forbids to run it.
  RunRule rule_behind_all() const { return all_known_ ? RunRule::free : RunRule::not_at_all; }

  bool mends(const SheetTask& entry) const {
    const bool bad = std::any_of(found_bad_.begin(), found_bad_.end(),
                                 [&](const Task* task) { return is_or_includes(entry, task); });
    const bool sign = std::any_of(page_.forbidden_by.begin(), page_.forbidden_by.end(),
                                  [&](const Point* point) { return is_or_includes(entry, point->task); });
    return bad || sign;
  }

 private:
  bool is_done(const Task& task) const {
    return std::any_of(page_.tasks.begin(), page_.tasks.end(),
                       [&](const SheetTask& entry) { return is_or_includes(entry, &task); });
  }

  const MachineSheet& page_;
  std::vector<const Task*> found_bad_;
  bool all_known_ = true;  // a task of the page mends each thing that forbids to run it
};

// What each task says of running the machine.
void say_run_rules(MachineSheet& page, const Unsafe& unsafe) {
  const auto looks_say = [&](const auto& rule_of) {
    for (auto* looks : {&page.checks_owed, &page.measure_again}) {
      for (SheetLook& look : *looks) look.run_rule = rule_of(look);
    }
  };
  if (page.not_to_run && page.stays_locked()) {
    // No repair brings it back: somebody has to say that it is.
    for (SheetTask& entry : page.tasks) entry.run_rule = RunRule::not_at_all;
    looks_say([](const SheetLook&) { return RunRule::not_at_all; });
    return;
  }
  if (page.laid_up()) {
    // A check may want it run without a caution of its own.
    const auto rule = [](bool runs) { return runs ? RunRule::once_put_back : RunRule::free; };
    for (SheetTask& entry : page.tasks) entry.run_rule = rule(entry.runs || entry.check != nullptr);
    looks_say([&](const SheetLook& look) {
      return rule(look.check != nullptr || holds(look.task->all_cautions, "engine-running"));
    });
    return;
  }
  if (!page.not_to_run) return;
  RunRule rule = unsafe.rule_behind_all();
  looks_say([&](const SheetLook&) { return rule; });
  for (auto entry = page.tasks.rbegin(); entry != page.tasks.rend(); ++entry) {
    const bool mends = unsafe.mends(*entry);
    // A repair with another one to come, or that runs nothing, allows nothing.
    const bool last = mends && rule == RunRule::free;
    if (mends) rule = RunRule::not_at_all;  // and what stands before it
    entry->run_rule = last && entry->runs ? RunRule::once_mended : rule;
  }
}

}  // namespace

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

bool sign_seen(const Point& point) {
  return std::any_of(point.limbs.begin(), point.limbs.end(),
                     [](const LimbStanding& limb) { return limb.kind == LimbKind::sign && !limb.seen.empty(); });
}

std::vector<SheetTask> sheet_tasks(const Fleet& fleet, const Machine& machine, const std::vector<const Point*>& points,
                                   const std::vector<const Point*>& all, Day as_of) {
  std::vector<SheetTask> tasks;
  for (const Point* point : by_themselves(fleet, points)) {
    auto entry =
        std::find_if(tasks.begin(), tasks.end(), [&](const SheetTask& other) { return other.name == point->name; });
    if (entry == tasks.end()) entry = tasks.insert(tasks.end(), task_for(fleet, machine, *point));
    entry->points.push_back(point);
    entry->sign_seen = entry->sign_seen || sign_seen(*point);
    entry->done_on = as_of;
  }
  for (SheetTask& entry : tasks) {
    times(entry.resources, static_cast<std::int64_t>(entry.points.size()));
    if (entry.check != nullptr) continue;
    for (const Point* point : entry.points) add_measures(entry, *point);
    add_included(entry, fleet, machine, points, all);
    if (entry.label) entry.again = due_again(fleet, machine, *entry.task, as_of);
    for (const Point* check : all) {
      const bool again = std::any_of(entry.points.begin(), entry.points.end(),
                                     [&](const Point* point) { return renews(fleet, *point, *check); });
      if (again) entry.renewed_checks.push_back(check);
    }
  }
  return tasks;
}

void in_order(MachineSheet& page, const Fleet& fleet) {
  const Unsafe unsafe(page, fleet);
  for (SheetTask& entry : page.tasks) entry.unsafe = unsafe.is_about(entry);
  // What is unsafe comes first, for it may be why the machine should not run; then by what the work does to the
  // machine. Of what needs it running, what has hot surfaces to reach comes before others have warmed them.
  std::stable_sort(page.tasks.begin(), page.tasks.end(), [](const SheetTask& a, const SheetTask& b) {
    const auto rank = [](const SheetTask& entry) {
      const bool wants_cool = entry.stage == JobStage::running && holds(entry.task->cautions, "hot-surface");
      return std::tuple{entry.examines(), entry.waits_wholly(),      !entry.unsafe, entry.stage,
                        !wants_cool,      !is_overdue_safety(entry), !entry.safety, entry.included.empty()};
    };
    return rank(a) < rank(b);
  });
  for (std::size_t i = 1; i < page.tasks.size(); ++i) {
    SheetTask& entry = page.tasks[i];
    entry.cold_again = entry.stage == JobStage::cold || entry.stage == JobStage::from_cold;
  }
  say_run_rules(page, unsafe);
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
