#include "workload/again.h"

namespace service::load {

const Aheads& Again::ahead_of(const Machine& machine) {
  const auto [at, is_new] = meters_.try_emplace(&machine);
  if (is_new) {
    at->second.histories = meter_histories(snapshot_, machine);
    at->second.ahead = aheads_of(snapshot_, machine, at->second.histories, forecaster_);
  }
  return at->second.ahead;
}

std::optional<Probability> Again::odds(const Point& point, Day by) {
  if (point.follow_up != nullptr) return std::nullopt;
  const auto task = task_of(snapshot_.fleet(), *point.machine, point.task->name);
  if (!task) return std::nullopt;
  const Aheads& ahead = ahead_of(*point.machine);
  double not_yet = 1;
  bool known = false;
  for (const LimbChoice& choice : task->every) {
    for (const Limb& limb : choice.candidates) {
      if (const auto* calendar = std::get_if<CalendarLimb>(&limb)) {
        known = true;
        if (after(snapshot_.as_of(), calendar->every) <= by) not_yet = 0;
      } else if (const auto* usage = std::get_if<UsageLimb>(&limb)) {
        const auto meter = ahead.find(usage->meter.value_or(""));
        if (meter == ahead.end()) continue;
        const auto now = meter->second->on(snapshot_.as_of(), Quantile::p50);
        if (!now) continue;
        known = true;
        if (const auto reach = meter->second->odds(*now + usage->every, std::nullopt))
          not_yet *= 1 - reach->by(by).value;
      }
    }
  }
  return known ? std::optional{Probability{1 - not_yet}} : std::nullopt;
}

}  // namespace service::load
