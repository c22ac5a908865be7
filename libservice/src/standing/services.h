// The services that count for one point of a machine, and its usage at them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "standing/view.h"

namespace service {

// The snapshot's own functions, on the machine of a view.
inline std::vector<ServiceDay> services_of(const MachineView& view, const MachineTask& task,
                                           const std::string& position) {
  return services_of(view.facts, task, position);
}

// What a `changes` limb of another task counts.
inline std::vector<ServiceDay> services_anywhere(const MachineView& view, const std::string& task) {
  return services_of(view.facts, view.schedule, task, {});
}

inline std::vector<ServiceDay> checks_of(const MachineView& view, const std::string& name,
                                         const std::string& position) {
  return checks_of(view.facts, name, position);
}

// Usage at a service and where it comes from: recorded with it, else from the history at the first day of its span.
struct UsageThen {
  std::optional<Amount> usage;
  Basis basis = Basis::unknown;
};

UsageThen usage_then(const MachineView& view, const ServiceDay& service, const std::string& meter);

}  // namespace service
