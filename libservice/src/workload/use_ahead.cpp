#include "workload/use_ahead.h"

namespace service::load {

const UseAhead::Meters& UseAhead::meters_of(const Machine& machine) {
  const auto [at, is_new] = meters_.try_emplace(&machine);
  if (is_new) {
    at->second.histories = meter_histories(snapshot_, machine);
    at->second.ahead = aheads_of(snapshot_, machine, at->second.histories, forecaster_);
  }
  return at->second;
}

std::optional<Amount> UseAhead::usage_on(const Machine& machine, const std::string& meter, Day day) {
  const Meters& meters = meters_of(machine);
  const auto history = meters.histories.find(meter);
  if (history == meters.histories.end() || history->second.empty()) return std::nullopt;
  const auto& knots = history->second.knots();
  if (day <= knots.back().day) return history->second.on(std::max(day, knots.front().day));
  return meters.ahead.find(meter)->second->mean(day);
}

}  // namespace service::load
