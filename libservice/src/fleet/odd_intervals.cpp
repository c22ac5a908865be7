// Intervals that can be read and yet look like slips.
#include <fmt/format.h>

#include <variant>

#include "service/fleet.h"

namespace service {
namespace {

// Both limbs are of one kind and one unit (and meter): then their lengths can be compared.
std::optional<std::strong_ordering> compared(const Limb& a, const Limb& b) {
  if (const auto* one = std::get_if<UsageLimb>(&a)) {
    const auto* other = std::get_if<UsageLimb>(&b);
    if (other == nullptr || one->meter != other->meter) return std::nullopt;
    return one->every <=> other->every;
  }
  if (const auto* one = std::get_if<CalendarLimb>(&a)) {
    const auto* other = std::get_if<CalendarLimb>(&b);
    if (other == nullptr || one->every.unit != other->every.unit) return std::nullopt;
    return one->every.count <=> other->every.count;
  }
  return std::nullopt;
}

std::string length_of(const Limb& limb) {
  if (const auto* usage = std::get_if<UsageLimb>(&limb)) {
    return to_text(usage->every) + (usage->meter ? " of " + *usage->meter : " h");
  }
  return to_text(std::get<CalendarLimb>(limb).every);
}

void compare(const std::vector<Limb>& own, const std::vector<Limb>& normal, const Place& place, const std::string& what,
             const char* hint, bool equal_only, std::vector<Diagnostic>& odd) {
  for (const Limb& limb : own) {
    for (const Limb& other : normal) {
      const auto order = compared(limb, other);
      if (!order || (equal_only ? *order != 0 : *order < 0)) continue;
      odd.push_back({"odd-interval",
                     fmt::format("{} is {}, {} the normal {}", what, length_of(limb),
                                 *order == 0 ? "the same as" : "longer than", length_of(other)),
                     hint, place, Severity::remark});
    }
  }
}

}  // namespace

std::vector<Diagnostic> odd_intervals(const Fleet& fleet) {
  std::vector<Diagnostic> odd;
  for (const Schedule& schedule : fleet.schedules) {
    for (const Task& task : schedule.tasks) {
      compare(task.first, task.every, task.place, fmt::format("the running-in interval of `{}`", task.name),
              "a running-in interval is mostly shorter; mend one of the two, or leave `first:` out", false, odd);
      for (const auto& [condition, limbs] : task.in) {
        compare(limbs, task.every, task.place, fmt::format("the interval of `{}` in {}", task.name, condition),
                "hard conditions mostly shorten an interval; mend one of the two", false, odd);
      }
    }
  }
  for (const Machine& machine : fleet.machines) {
    const Schedule& schedule = fleet.schedule_of(machine);
    for (const TaskChange& change : machine.change) {
      const Task* task = schedule.task(change.task);
      if (task == nullptr) continue;
      compare(change.every, task->every, machine.place,
              fmt::format("the interval of `{}` of {}", task->name, machine.key),
              "leave it out of `change:`, or mend it", true, odd);
    }
  }
  return odd;
}

}  // namespace service
