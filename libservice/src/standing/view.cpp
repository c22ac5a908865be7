#include "standing/view.h"

namespace service {

MachineView::MachineView(const Snapshot& from, const Machine& of, const Forecaster& forecaster, Detail with)
    : snapshot(from),
      machine(of),
      schedule(from.fleet().schedule_of(of)),
      as_of(from.as_of()),
      state(use_state(from, of)),
      facts(from.facts_of(of.key)),
      tasks(tasks_of(from.fleet(), of)),
      histories(meter_histories(from, of)),
      ahead(aheads_of(from, of, histories, forecaster)),
      detail(with) {}

const MeterHistory* MachineView::history(const std::string& meter) const {
  const auto found = histories.find(meter);
  return found == histories.end() ? nullptr : &found->second;
}

std::optional<Amount> MachineView::estimate_today(const std::string& meter, Amount level) const {
  const UsageAhead& expected = *ahead.find(meter)->second;
  if (detail != Detail::everything) {
    // An estimate at even odds takes many times what the odds of one level take, and the odds only fall with the level.
    constexpr Probability plainly_not{0.4};
    const auto lowest = not_reached_.find(meter);
    if (lowest != not_reached_.end() && level >= lowest->second) return std::nullopt;
    const auto odds = expected.odds(level, std::nullopt);
    if (odds == nullptr) return std::nullopt;
    if (odds->by(as_of) < plainly_not) {
      not_reached_.insert_or_assign(meter, level);
      return std::nullopt;
    }
  }
  return expected.on(as_of, Quantile::p50);
}

std::optional<Amount> MachineView::usage_when_new(const std::string& meter) const {
  if (machine.start.kind != StartKind::in_service || machine.meter(meter) == nullptr) return std::nullopt;
  return machine.first_meter()->name == meter ? machine.start.at.value_or(Amount{}) : Amount{};
}

}  // namespace service
