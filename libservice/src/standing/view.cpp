#include "standing/view.h"

#include <utility>

namespace service {

MachineView::MachineView(const Snapshot& from, const Machine& of, const Forecaster& forecaster)
    : MachineView(from.fleet(), from.as_of(), of, book_of(from, of), forecaster) {}

MachineView::MachineView(const Fleet& from, Day on, const Machine& of, std::shared_ptr<const MachineBook> its,
                         const Forecaster& forecaster, std::shared_ptr<const std::vector<MachineTask>> its_tasks)
    : fleet(from),
      machine(of),
      schedule(from.schedule_of(of)),
      as_of(on),
      state(use_state(its->facts(), on)),
      book(std::move(its)),
      facts(book->facts()),
      shared_tasks(its_tasks != nullptr ? std::move(its_tasks)
                                        : std::make_shared<const std::vector<MachineTask>>(tasks_of(from, of))),
      tasks(*shared_tasks),
      histories(book->histories()),
      ahead(aheads_of(from, of, histories, state, on, forecaster)) {
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
