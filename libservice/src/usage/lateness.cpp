#include "usage/lateness.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "usage/constants.h"

namespace service::usage {
namespace {

// The interval of a task on a meter.
std::optional<Amount> interval_on(const MachineTask& task, const std::string& meter) {
  std::optional<Amount> every;
  for (const LimbChoice& choice : task.every) {
    const auto* limb = std::get_if<UsageLimb>(&choice.candidates.front());
    if (limb != nullptr && limb->meter == meter) every = limb->every;
  }
  return every && every->hundredths > 0 ? every : std::nullopt;
}

// Use between one service of a point and the next over the interval, where both were written down with the meter's
// value. A service of a covering task ends the interval of what it covers as much as one of the task itself.
void add_lateness(std::span<const ServiceDay> services, Amount every, const MeterHistory& history, Lateness& lateness) {
  std::optional<Amount> fitted;
  for (const ServiceDay& service : services) {
    const Fact& fact = service.spoken_for();
    const auto usage = fact.at ? history.usage_of(fact.id) : std::nullopt;
    if (fitted && usage && *usage > *fitted) {
      lateness.push_back(static_cast<double>((*usage - *fitted).hundredths) / static_cast<double>(every.hundredths));
    }
    fitted = usage;
  }
}

}  // namespace

LateServices::LateServices(Lateness shares, bool recorded) : shares_(std::move(shares)), recorded_(recorded) {
  if (!std::is_sorted(shares_.begin(), shares_.end())) std::sort(shares_.begin(), shares_.end());
}

double LateServices::unserviced_at(double share) const {
  if (!recorded_) return 1;
  const double prior = 0.5 * std::erfc((share - 1) / (constants.lateness_spread * std::numbers::sqrt2));
  const auto later = shares_.end() - std::upper_bound(shares_.begin(), shares_.end(), share);
  const double n = constants.lateness_prior + static_cast<double>(shares_.size());
  return std::max(constants.least_unserviced, (constants.lateness_prior * prior + static_cast<double>(later)) / n);
}

Lateness lateness_of(const Fleet& fleet, const Machine& machine, const std::string& meter, const MeterHistory& history,
                     std::span<const Fact> facts) {
  Lateness lateness;
  for (const MachineTask& task : tasks_of(fleet, machine)) {
    const auto every = interval_on(task, meter);
    if (!every) continue;
    for (const std::string& position : task.places()) {
      add_lateness(services_of(facts, task, position), *every, history, lateness);
    }
  }
  return lateness;
}

}  // namespace service::usage
