// Who is rung up about what changed since the plan that was kept: one call a customer, for all of his visits.
//
//   for (const RingUp& call : ring_ups(plan)) ... call.contact ... plan.changes[call.changes.front()] ...
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "service/rounds.h"

#pragma GCC visibility push(default)

namespace service {

struct RingUp {
  std::string contact;               // one may stand for several sites; empty: nothing says whom to ring up
  std::vector<const Site*> sites;    // of its changes, each once; none: nobody knows where it was to be
  bool promised = false;             // something was promised there that does not hold
  std::vector<std::size_t> changes;  // of the plan, in its order
};

// Each change of the plan is in one of them; in the order of the changes.
std::vector<RingUp> ring_ups(const RoundsPlan& plan);

}  // namespace service

#pragma GCC visibility pop
