#include "service/in_scope.h"

namespace service {

InScope::InScope(const Scope& scope) : all_(!scope.machines) {
  if (all_) return;
  machines_.insert(scope.machines->begin(), scope.machines->end());
}

bool InScope::holds(std::string_view machine) const { return all_ || machine.empty() || machines_.contains(machine); }

}  // namespace service
