#include "standing/services.h"

#include <algorithm>

namespace service {
namespace {

template <class Counts>
std::vector<ServiceDay> collect(const MachineView& view, Counts counts) {
  std::vector<ServiceDay> days;
  for (const Fact& fact : view.facts) {  // in the one order, so days only rise
    if (fact.kind != FactKind::service || !counts(fact)) continue;
    if (days.empty() || days.back().day() != fact.on.first) days.emplace_back();
    days.back().facts.push_back(&fact);
  }
  return days;
}

bool at_position(const Fact& fact, const std::string& position) {
  return position.empty() || fact.position.empty() || fact.position == position;
}

bool among(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

}  // namespace

std::vector<ServiceDay> services_of(const MachineView& view, const std::string& task, const std::string& position) {
  const auto names = counted_as(view.schedule, task);
  return collect(view, [&](const Fact& fact) { return among(names, fact.task) && at_position(fact, position); });
}

std::vector<ServiceDay> services_anywhere(const MachineView& view, const std::string& task) {
  return services_of(view, task, {});
}

std::vector<ServiceDay> checks_of(const MachineView& view, const std::string& name, const std::string& position) {
  return collect(view, [&](const Fact& fact) { return fact.task == name && at_position(fact, position); });
}

UsageThen usage_then(const MachineView& view, const ServiceDay& service, const std::string& meter) {
  const Meter* known = view.machine.meter(meter);
  const MeterHistory* history = view.history(meter);
  if (known == nullptr || history == nullptr) return {};
  const Fact& fact = service.spoken_for();
  if (fact.at && shown_by(fact, view.machine, *known)) {
    if (const auto usage = history->usage_of(fact.id)) return {usage, Basis::recorded};
  }
  return {history->on(service.day()), history->basis_on(service.day())};
}

}  // namespace service
