// A task as it holds for one machine. `in`, `change` and `first` replace limb by limb: what is not named stays.
#include <algorithm>

#include "service/snapshot.h"

namespace service {
namespace {

std::vector<Limb> with_meters_named(const std::vector<Limb>& limbs, const Machine& machine) {
  std::vector<Limb> named = limbs;
  for (Limb& limb : named) {
    if (auto* usage = std::get_if<UsageLimb>(&limb); usage != nullptr && !usage->meter) {
      if (const Meter* meter = machine.first_hour_meter()) usage->meter = meter->name;
    }
  }
  return named;
}

// Whether one limb stands in the place of the other: the same meter, the same other task, the same measurement, ...
bool same_place(const Limb& a, const Limb& b) {
  if (a.index() != b.index()) return false;
  if (const auto* usage = std::get_if<UsageLimb>(&a)) return usage->meter == std::get<UsageLimb>(b).meter;
  if (const auto* changes = std::get_if<ChangesLimb>(&a)) return changes->task == std::get<ChangesLimb>(b).task;
  if (const auto* measured = std::get_if<MeasuredLimb>(&a)) return measured->name == std::get<MeasuredLimb>(b).name;
  if (const auto* season = std::get_if<SeasonLimb>(&a)) return season->season == std::get<SeasonLimb>(b).season;
  return true;
}

LimbChoice* choice_for(std::vector<LimbChoice>& choices, const Limb& limb) {
  const auto found = std::find_if(choices.begin(), choices.end(), [&](const LimbChoice& choice) {
    return same_place(choice.candidates.front(), limb);
  });
  return found == choices.end() ? nullptr : &*found;
}

void replace(std::vector<LimbChoice>& choices, std::vector<LimbChoice> by) {
  for (LimbChoice& choice : by) {
    if (LimbChoice* place = choice_for(choices, choice.candidates.front())) {
      *place = std::move(choice);
    } else {
      choices.push_back(std::move(choice));
    }
  }
}

std::vector<LimbChoice> single(const std::vector<Limb>& limbs) {
  std::vector<LimbChoice> choices;
  for (const Limb& limb : limbs) choices.push_back({{limb}});
  return choices;
}

// Adds another condition's limb. Where the two can be compared as they stand, the shorter one stays alone.
void add_candidate(LimbChoice& choice, const Limb& limb) {
  Limb& kept = choice.candidates.front();
  if (auto* usage = std::get_if<UsageLimb>(&kept)) {
    usage->every = std::min(usage->every, std::get<UsageLimb>(limb).every);
  } else if (auto* changes = std::get_if<ChangesLimb>(&kept)) {
    changes->count = std::min(changes->count, std::get<ChangesLimb>(limb).count);
  } else if (auto* season = std::get_if<SeasonLimb>(&kept)) {
    season->lead_days = std::max(season->lead_days, std::get<SeasonLimb>(limb).lead_days);
  } else if (auto* sign = std::get_if<SignLimb>(&kept)) {
    for (const std::string& name : std::get<SignLimb>(limb).signs) {
      if (std::find(sign->signs.begin(), sign->signs.end(), name) == sign->signs.end()) sign->signs.push_back(name);
    }
  } else if (auto* measured = std::get_if<MeasuredLimb>(&kept)) {
    const auto& other = std::get<MeasuredLimb>(limb);
    if (other.unit == measured->unit && other.above == measured->above) {
      measured->limit =
          measured->above ? std::min(measured->limit, other.limit) : std::max(measured->limit, other.limit);
    }
  } else {
    choice.candidates.push_back(limb);  // months against days: which is first depends on the day they count from
  }
}

std::vector<LimbChoice> for_conditions(const Task& task, const Machine& machine) {
  std::vector<LimbChoice> choices;
  for (const auto& [condition, limbs] : task.in) {
    if (std::find(machine.conditions.begin(), machine.conditions.end(), condition) == machine.conditions.end())
      continue;
    for (const Limb& limb : with_meters_named(limbs, machine)) {
      if (LimbChoice* place = choice_for(choices, limb)) {
        add_candidate(*place, limb);
      } else {
        choices.push_back({{limb}});
      }
    }
  }
  return choices;
}

// What `over` names wins; a percentage in it speaks for every limb, hours for every meter in h.
Grace merged(const Grace& over, const Grace& under, const Machine& machine) {
  if (over.percent_hundredths) return over;
  Grace grace = under;
  if (over.hours) {
    grace.hours = over.hours;
    for (const Meter& meter : machine.meters) {
      if (meter.unit == "h") grace.usage.erase(meter.name);
    }
  }
  for (const auto& [meter, amount] : over.usage) grace.usage[meter] = amount;
  if (over.days) grace.days = over.days;
  if (over.changes) grace.changes = over.changes;
  return grace;
}

MachineTask resolved(const Fleet& fleet, const Machine& machine, const Task& task) {
  const TaskChange* change = machine.change_to(task.name);
  MachineTask result;
  result.task = &task;
  result.positions = task.positions;
  result.served_by = counted_as(fleet.schedule_of(machine), task.name);
  result.every = single(with_meters_named(task.every, machine));
  replace(result.every, for_conditions(task, machine));
  if (change != nullptr) replace(result.every, single(with_meters_named(change->every, machine)));
  result.first = result.every;
  replace(result.first, single(with_meters_named(task.first, machine)));
  if (change != nullptr) {
    replace(result.first, single(with_meters_named(change->first, machine)));
    if (change->positions) result.positions = *change->positions;
  }
  if (task.safety) return result;
  if (task.grace) result.own_grace = *task.grace;
  if (change != nullptr && change->grace) result.own_grace = merged(*change->grace, result.own_grace, machine);
  // A law names the day of an examination: what the fleet allows itself does not move it.
  result.grace = task.competent_person ? result.own_grace : merged(result.own_grace, fleet.grace, machine);
  return result;
}

}  // namespace

const std::vector<std::string>& MachineTask::places() const& {
  static const std::vector<std::string> without_a_name{""};
  return positions.empty() ? without_a_name : positions;
}

// Of a machine that is all that `resolved` asks about.
bool tasks_alike(const Machine& a, const Machine& b) {
  const auto same_meter = [](const Meter& one, const Meter& other) {
    return one.name == other.name && one.unit == other.unit;
  };
  return a.change.empty() && b.change.empty() && a.conditions == b.conditions &&
         std::equal(a.meters.begin(), a.meters.end(), b.meters.begin(), b.meters.end(), same_meter);
}

std::vector<MachineTask> tasks_of(const Fleet& fleet, const Machine& machine) {
  std::vector<MachineTask> tasks;
  const Schedule& schedule = fleet.schedule_of(machine);
  tasks.reserve(schedule.tasks.size());
  for (const Task& task : schedule.tasks) tasks.push_back(resolved(fleet, machine, task));
  return tasks;
}

std::optional<MachineTask> task_of(const Fleet& fleet, const Machine& machine, std::string_view name) {
  const Task* task = fleet.schedule_of(machine).task(name);
  if (task == nullptr) return std::nullopt;
  return resolved(fleet, machine, *task);
}

std::vector<std::string> counted_as(const Schedule& schedule, std::string_view name) {
  std::vector<std::string> names{std::string(name)};
  for (std::size_t i = 0; i < names.size(); ++i) {
    const Task* covered = schedule.task(names[i]);
    if (covered == nullptr) continue;
    for (const Task& task : schedule.tasks) {
      if (std::find(task.covers.begin(), task.covers.end(), covered->name) == task.covers.end()) continue;
      if (covered->competent_person && !task.competent_person) continue;
      if (std::find(names.begin(), names.end(), task.name) == names.end()) names.push_back(task.name);
    }
  }
  return names;
}

std::vector<std::string> done_with(const Schedule& schedule, std::string_view name) {
  std::vector<std::string> names{std::string(name)};
  for (const Task& task : schedule.tasks) {
    if (task.name == name) continue;
    const auto counted = counted_as(schedule, task.name);
    if (std::find(counted.begin(), counted.end(), name) != counted.end()) names.push_back(task.name);
  }
  return names;
}

NamedTask task_named(const Schedule& schedule, std::string_view name) {
  const auto slash = name.find('/');
  const Task* task = schedule.task(name.substr(0, slash));
  if (task == nullptr || slash == std::string_view::npos) return {task, nullptr};
  for (const FollowUp& follow_up : task->follow_ups) {
    if (follow_up.name == name.substr(slash + 1)) return {task, &follow_up};
  }
  return {};
}

bool puts_in_new(const Machine& machine, const NamedTask& named) {
  if (named.task == nullptr || named.follow_up != nullptr) return false;
  const TaskChange* change = machine.change_to(named.task->name);
  const auto& parts = change != nullptr && change->parts ? *change->parts : named.task->parts;
  const auto& fluids = change != nullptr && change->fluids ? *change->fluids : named.task->fluids;
  return !parts.empty() || !fluids.empty();
}

bool renews(const Machine& machine, const NamedTask& named) {
  if (named.task == nullptr || named.follow_up != nullptr) return false;
  if (!never_waits(*named.task, nullptr)) return puts_in_new(machine, named);
  const TaskChange* change = machine.change_to(named.task->name);
  return !(change != nullptr && change->parts ? *change->parts : named.task->parts).empty();
}

bool may_only_be_looked_at(const Machine& machine, const Task& task, LimbKind kind) {
  if (renews(machine, {&task, nullptr})) return false;
  return kind == LimbKind::measured || (kind == LimbKind::sign && never_waits(task, nullptr));
}

}  // namespace service
