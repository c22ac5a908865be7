// What somebody found worn or failed, and nobody has mended since, as a plan of visits tells it. No schedule says how
// long a repair takes, so it has no place in a plan until somebody makes it a call: whoever goes to its site is told of
// it, and so is whoever plans.
#pragma once

#include <string>
#include <vector>

#include "service/due_list.h"

#pragma GCC visibility push(default)

namespace service {

struct WaitsToMend {
  const SeenSign* seen = nullptr;   // since when, with its note
  std::string task;                 // that was found so, `oil/look`; empty: it was seen in somebody's own words
  std::string position;             // of it
  Found found = Found::failed;      // or worn
  const Site* site = nullptr;       // null: its machine stands at none
  const UseState* state = nullptr;  // null: its machine is in use
  const Call* call = nullptr;       // to its machine, and may be for it; null: nothing says how long it takes
};

// Of everything on the list, in the order of what was seen. Points into the list and its fleet.
std::vector<WaitsToMend> waiting_to_mend(const DueList& list);

}  // namespace service

#pragma GCC visibility pop
