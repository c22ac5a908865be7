#include "standing/view.h"

#include "standing/ran_since.h"

namespace service {

MachineView::MachineView(const Snapshot& from, const Machine& of, const Forecaster& forecaster)
    : snapshot(from),
      machine(of),
      schedule(from.fleet().schedule_of(of)),
      as_of(from.as_of()),
      state(use_state(from, of)),
      book(book_of(from, of)),
      facts(book->facts()),
      tasks(tasks_of(from.fleet(), of)),
      histories(book->histories()),
      ahead(aheads_of(from, of, histories, forecaster)) {
  state.ran = ran_since(machine, state, histories);
}

const MeterHistory* MachineView::history(const std::string& meter) const {
  const auto found = histories.find(meter);
  return found == histories.end() ? nullptr : &found->second;
}

std::optional<Day> MachineView::expected_at(const std::string& meter, Amount level, Quantile quantile) const {
  return not_past(ahead.find(meter)->second->reaches(level, quantile));
}

std::optional<Amount> MachineView::estimate_today(const std::string& meter) const {
  return ahead.find(meter)->second->on(as_of, Quantile::p50);
}

std::optional<Amount> MachineView::usage_when_new(const std::string& meter) const {
  if (machine.start.kind != StartKind::in_service || machine.meter(meter) == nullptr) return std::nullopt;
  return machine.first_meter()->name == meter ? machine.start.at.value_or(Amount{}) : Amount{};
}

}  // namespace service
