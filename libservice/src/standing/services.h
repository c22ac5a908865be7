// The services that count for one point, one entry a day, oldest first.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "standing/view.h"

namespace service {

// All services of one day; several of a task on a day are one. The last entered speaks for them.
struct ServiceDay {
  std::vector<const Fact*> facts;

  const Fact& spoken_for() const { return *facts.back(); }
  Day day() const { return facts.back()->on.first; }
};

// Of a task at a position (empty: the task has none, and a service at any position of a covering task counts).
// A task that another one covers counts as done with it.
std::vector<ServiceDay> services_of(const MachineView& view, const std::string& task, const std::string& position);

// Of a task at any position: what a `changes` limb of another task counts.
std::vector<ServiceDay> services_anywhere(const MachineView& view, const std::string& task);

// The checks recorded of a follow-up (`task/check`).
std::vector<ServiceDay> checks_of(const MachineView& view, const std::string& name, const std::string& position);

// Usage at a service and where it comes from: recorded with it, else from the history at the first day of its span.
struct UsageThen {
  std::optional<Amount> usage;
  Basis basis = Basis::unknown;
};

UsageThen usage_then(const MachineView& view, const ServiceDay& service, const std::string& meter);

}  // namespace service
