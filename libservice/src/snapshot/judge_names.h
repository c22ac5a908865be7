// The first half of judging: one new fact by itself. Does everything it names exist, is its day possible, is it
// allowed?
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "service/snapshot.h"

namespace service {

// What is kept as seen by these facts, looked for once somebody tells of a look. The facts and the fleet must outlive
// it.
class WhatWasSeen {
 public:
  explicit WhatWasSeen(const Fleet& fleet) : fleet_(&fleet) {}
  void add(const Fact& fact);
  const std::vector<Kept>& of(const Machine& machine);

 private:
  const Fleet* fleet_;
  std::vector<const Fact*> facts_;
  std::map<std::string_view, std::vector<const Fact*>> by_machine_;  // once somebody told of a look
  std::map<std::string, std::vector<Kept>, std::less<>> kept_;
};

// Completes the fact's names in place. Answers with what is wrong, or with nothing. A sign on which no task comes due
// is kept as seen, and so is a measurement that has no limit; `said` tells it.
std::optional<Diagnostic> judge_names(const Fleet& fleet, Fact& fact, Day today, WhatWasSeen& seen,
                                      std::vector<std::string>& said);

// A fact dated after today: a plan is not a fact.
std::optional<Diagnostic> judge_future(const Fact& fact, Day today);

}  // namespace service
