#include "entry/meters_counted.h"

#include "service/snapshot.h"

namespace service {
namespace {

void take(const std::vector<Limb>& limbs, const Machine& machine, std::set<std::string>& meters) {
  for (const Limb& limb : limbs) {
    const auto* usage = std::get_if<UsageLimb>(&limb);
    if (usage == nullptr) continue;
    const Meter* meter = usage->meter ? machine.meter(*usage->meter) : machine.first_hour_meter();
    if (meter != nullptr) meters.insert(meter->name);
  }
}

}  // namespace

std::set<std::string> meters_counted(const Fleet& fleet, const Machine& machine, const std::string& task) {
  std::set<std::string> meters;
  const auto slash = task.find('/');
  if (slash == std::string::npos) {
    if (const auto found = task_of(fleet, machine, task)) {
      for (const LimbChoice& choice : found->every) take(choice.candidates, machine, meters);
    }
    return meters;
  }
  const Task* of = fleet.schedule_of(machine).task(task.substr(0, slash));
  if (of == nullptr) return meters;
  for (const FollowUp& check : of->follow_ups) {
    if (check.name == task.substr(slash + 1)) take(check.within, machine, meters);
  }
  return meters;
}

}  // namespace service
