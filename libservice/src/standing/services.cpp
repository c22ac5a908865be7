#include "standing/services.h"

namespace service {

UsageThen usage_then(const MachineView& view, const ServiceDay& service, const std::string& meter) {
  const MeterHistory* history = view.history(meter);
  if (history == nullptr) return {};  // there is one of each meter of the machine
  const Fact& fact = service.spoken_for();
  if (fact.at && shown_by(fact, view.machine, *view.machine.meter(meter))) {
    if (const auto usage = history->usage_of(fact.id)) return {usage, Basis::recorded};
  }
  return {history->on(service.day()), history->basis_on(service.day())};
}

}  // namespace service
