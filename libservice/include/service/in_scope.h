// A scope to be asked about each machine of a fleet. `Scope::holds` looks through its list each time: thousands of
// machines times thousands of questions.
#pragma once

#include <string_view>
#include <unordered_set>

#include "service/record.h"

#pragma GCC visibility push(default)

namespace service {

// Answers as `Scope::holds`. Points into the scope, which must stay as it is.
class InScope {
 public:
  explicit InScope(const Scope& scope);

  bool holds(std::string_view machine) const;

 private:
  bool all_ = true;
  std::unordered_set<std::string_view> machines_;
};

}  // namespace service

#pragma GCC visibility pop
