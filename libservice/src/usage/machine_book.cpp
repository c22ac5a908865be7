#include "service/machine_book.h"

#include <algorithm>

#include "usage/lateness.h"

namespace service {

MachineBook::MachineBook(const Fleet& fleet, const Machine& machine, std::span<const Fact> facts)
    : MachineBook(fleet, machine, facts, nullptr) {}

MachineBook::MachineBook(const Fleet& fleet, const Machine& machine, std::span<const Fact> left,
                         std::shared_ptr<const Derived> derived)
    : fleet_(fleet), machine_(machine), facts_(left), derived_(std::move(derived)) {}

bool MachineBook::nothing_recorded() const { return derived_ != nullptr ? !derived_->recorded : facts_.empty(); }

bool MachineBook::serviced() const {
  if (derived_ != nullptr) return derived_->serviced;
  return std::any_of(facts_.begin(), facts_.end(), [](const Fact& fact) { return fact.kind == FactKind::service; });
}

const Histories& MachineBook::histories() const {
  if (derived_ != nullptr) return derived_->histories;
  for (const Meter& meter : machine_.meters) history(meter);
  return worked_out_.histories;
}

const MeterHistory& MachineBook::history(const Meter& meter) const {
  if (derived_ != nullptr) return derived_->histories.at(meter.name);
  const auto known = worked_out_.histories.find(meter.name);
  if (known != worked_out_.histories.end()) return known->second;
  return worked_out_.histories.emplace(meter.name, MeterHistory(machine_, meter, facts_)).first->second;
}

const std::vector<Doubt>& MachineBook::doubts(const Meter& meter) const {
  if (derived_ != nullptr) return derived_->doubts.at(meter.name);
  const auto [at, is_new] = worked_out_.doubts.try_emplace(meter.name);
  if (is_new) at->second = standing_doubts(fleet_, machine_, meter, facts_);
  return at->second;
}

const std::vector<double>& MachineBook::lateness(const Meter& meter) const {
  if (derived_ != nullptr) return derived_->lateness.at(meter.name);
  const auto [at, is_new] = worked_out_.lateness.try_emplace(meter.name);
  if (is_new) at->second = usage::lateness_of(fleet_, machine_, meter.name, history(meter), facts_);
  return at->second;
}

std::shared_ptr<const MachineBook> book_of(const Snapshot& snapshot, const Machine& machine) {
  return std::make_shared<const MachineBook>(snapshot.fleet(), machine, snapshot.bearing_facts_of(machine.key),
                                             snapshot.derived_of(machine.key));
}

std::shared_ptr<const MachineBook> book_with(const Fleet& fleet, const Machine& machine, std::vector<Fact> facts,
                                             std::shared_ptr<const Derived> derived) {
  struct Held {
    Held(const Fleet& of, const Machine& about, std::vector<Fact> its, std::shared_ptr<const Derived> all)
        : facts(std::move(its)), book(of, about, facts, std::move(all)) {}
    std::vector<Fact> facts;
    MachineBook book;
  };
  const auto held = std::make_shared<const Held>(fleet, machine, std::move(facts), std::move(derived));
  return {held, &held->book};
}

Histories meter_histories(const Snapshot& snapshot, const Machine& machine) {
  return book_of(snapshot, machine)->histories();
}

}  // namespace service
