// Who else works at a machine on the same day: whoever goes has to agree with them who locks it off, and who gives it
// free.
//
//   for (const SharedMachine& one : shared_machines(plan, round)) ...
#pragma once

#include <vector>

#include "service/fleet.h"
#include "service/rounds.h"

#pragma GCC visibility push(default)

namespace service {

struct SharedMachine {
  const Machine* machine = nullptr;
  std::vector<const Crew*> others;  // in the order of the fleet file
};

// Of a round of that plan: machines that another round of the same day goes to as well.
std::vector<SharedMachine> shared_machines(const RoundsPlan& plan, const Round& round);

}  // namespace service

#pragma GCC visibility pop
