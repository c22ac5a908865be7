// What makes a task for safety, or one for a competent person, come due later than it need: no mistake, for the owner's
// manual may say so, and yet worth a look each time.
#include <fmt/format.h>

#include <algorithm>
#include <unordered_map>
#include <variant>

#include "fleet/draft.h"

namespace service::fleet {
namespace {

// Why nobody should stretch it; empty where anybody may.
std::string_view whose(const Task& task) {
  if (task.safety) return "is for safety";
  return task.competent_person ? "is for a competent person" : "";
}

void remark_on_grace(const std::optional<Spot>& grace, const Task& task, Diagnostics& diagnostics) {
  if (!grace) return;
  if (task.safety) {
    diagnostics.remark(code::grace_on_safety, *grace,
                       fmt::format("`{}` is for safety, so its grace is not used", task.name),
                       "leave out `grace:` or `safety:`");
  } else if (task.competent_person) {
    diagnostics.remark(
        code::grace_on_examination, *grace,
        fmt::format("`{}` is for a competent person, and this grace lets it run past its day", task.name),
        "leave out `grace:`, unless the law where the machine stands allows it");
  }
}

void remark_on_until(const TaskDraft& task, Diagnostics& diagnostics) {
  if (!task.until || !task.task.until_month_end || whose(task.task).empty()) return;
  diagnostics.remark(
      code::until_on_safety, *task.until,
      fmt::format("`{}` {}, and `until: month-end` lets it run past its day", task.task.name, whose(task.task)),
      "leave out `until:`, unless the law where the machine stands allows it");
}

// Which interval of a machine is compared with which of its schedule.
class Later {
 public:
  explicit Later(const std::vector<Meter>& meters) {
    const auto hours = std::find_if(meters.begin(), meters.end(), [](const Meter& meter) { return meter.unit == "h"; });
    if (hours != meters.end()) first_in_hours_ = hours->name;
  }

  // Some limb of `own` comes due later than the one of `normal` that it replaces.
  bool any(const std::vector<Limb>& own, const std::vector<Limb>& normal) const {
    return std::any_of(own.begin(), own.end(), [&](const Limb& limb) {
      return std::any_of(normal.begin(), normal.end(), [&](const Limb& other) { return is(limb, other); });
    });
  }

 private:
  bool is(const Limb& own, const Limb& normal) const {
    if (own.index() != normal.index()) return false;
    return std::visit([&](const auto& limb) { return later(limb, std::get<std::decay_t<decltype(limb)>>(normal)); },
                      own);
  }

  bool later(const UsageLimb& a, const UsageLimb& b) const {
    return a.meter.value_or(first_in_hours_) == b.meter.value_or(first_in_hours_) && a.every > b.every;
  }
  static bool later(const CalendarLimb& a, const CalendarLimb& b) {
    const Day any_day = day_of(2001, 1, 1);  // so that spans in other units can be compared
    return after(any_day, a.every) > after(any_day, b.every);
  }
  static bool later(const ChangesLimb& a, const ChangesLimb& b) { return a.task == b.task && a.count > b.count; }
  static bool later(const MeasuredLimb& a, const MeasuredLimb& b) {
    if (a.name != b.name || a.above != b.above || a.unit != b.unit) return false;
    return a.above ? a.limit > b.limit : a.limit < b.limit;
  }
  // A sign that no longer brings it due.
  static bool later(const SignLimb& a, const SignLimb& b) {
    return std::any_of(b.signs.begin(), b.signs.end(), [&](const std::string& sign) {
      return std::find(a.signs.begin(), a.signs.end(), sign) == a.signs.end();
    });
  }
  static bool later(const SeasonLimb& a, const SeasonLimb& b) {
    return a.season == b.season && a.lead_days < b.lead_days;
  }

  std::string first_in_hours_;
};

void remark_on_change(const ChangeDraft& change, const Task& task, const MachineDraft& machine,
                      const std::vector<Meter>& meters, Diagnostics& diagnostics) {
  remark_on_grace(change.grace, task, diagnostics);
  if (whose(task).empty()) return;
  const Later later(meters);
  const auto remark = [&](const Spot& spot, const char* key) {
    diagnostics.remark(code::safety_interval_longer, spot,
                       fmt::format("`{}` {}, and this `{}` lets it come due later on {} than its schedule does",
                                   task.name, whose(task), key, machine.machine.key),
                       "take the shorter interval, unless the operator's manual of this machine says so");
  };
  // Its conditions shorten what holds for it before it is changed.
  std::vector<Limb> normal = task.every;
  for (const auto& [condition, limbs] : task.in) {
    const auto& conditions = machine.machine.conditions;
    if (std::find(conditions.begin(), conditions.end(), condition) == conditions.end()) continue;
    normal.insert(normal.end(), limbs.begin(), limbs.end());
  }
  if (change.every && later.any(change.change.every, normal)) remark(*change.every, "every");
  // A running-in interval stands for the first one, which is the normal one where the schedule names none.
  std::vector<Limb> first = task.first.empty() ? normal : task.first;
  if (change.first && later.any(change.change.first, first)) remark(*change.first, "first");
}

}  // namespace

void remark_on_safety(const Draft& draft, Diagnostics& diagnostics) {
  std::unordered_map<std::string, const ScheduleDraft*> schedules;
  for (const ScheduleDraft& schedule : draft.schedules) {
    schedules.emplace(schedule.schedule.name, &schedule);
    for (const TaskDraft& task : schedule.tasks) {
      remark_on_grace(task.grace, task.task, diagnostics);
      remark_on_until(task, diagnostics);
    }
  }
  for (const MachineDraft& machine : draft.machines) {
    const auto schedule = schedules.find(machine.machine.schedule);
    if (machine.changes.empty() || schedule == schedules.end()) continue;
    const auto& meters = machine.own_meters ? machine.machine.meters : schedule->second->schedule.meters;
    for (const ChangeDraft& change : machine.changes) {
      const auto& tasks = schedule->second->tasks;
      const auto task = std::find_if(tasks.begin(), tasks.end(),
                                     [&](const TaskDraft& one) { return one.task.name == change.change.task; });
      if (task != tasks.end()) remark_on_change(change, task->task, machine, meters, diagnostics);
    }
  }
}

}  // namespace service::fleet
