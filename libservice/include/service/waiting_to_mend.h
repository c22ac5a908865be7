// What waits to be mended, in one shape for every answer that tells it: a plan of visits, a season, a job sheet.
//
// Of a plan it is what somebody found worn or failed, or measured at or past its limit where the task only looks, and
// nobody has mended since. No schedule says how long a repair takes, so it has no place in a plan until somebody makes
// it a call: whoever goes to its site is told of it, and so is whoever plans.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "service/due_list.h"

#pragma GCC visibility push(default)

namespace service {

struct WaitsToMend {
  const Machine* machine = nullptr;
  const SeenSign* seen = nullptr;      // what was kept as seen, since when, with its note; null: a limb of a point
  const Point* point = nullptr;        // that
  const LimbStanding* limb = nullptr;  // measured, with the value, its limit and its day; or a listed sign of it
  std::string task;                    // that was found so, `oil/look`; empty: it was seen in somebody's own words
  std::string position;                // of it
  std::optional<Found> found;          // worn or failed; none: it was measured, or nobody has looked
  const Site* site = nullptr;          // null: its machine stands at none
  const UseState* state = nullptr;     // null: its machine is in use
  const Call* call = nullptr;          // to its machine, and may be for it; null: nothing says how long it takes
  bool measured() const { return limb != nullptr && limb->kind == LimbKind::measured; }
};

// One of what was seen, or of a measured value or a listed sign. `state`: of its machine. Points into what is given.
WaitsToMend waits_to_mend(const Fleet& fleet, const SeenSign& seen, const UseState* state);
WaitsToMend waits_to_mend(const Fleet& fleet, const Point& point, const LimbStanding& limb, const UseState* state);

// What is to be mended: `hoses`, `fork@left`; else what was seen, in the words of whoever saw it.
std::string label_of(const WaitsToMend& one);

// What has no place in a plan: of everything on the list, in the order of what was seen; then what was measured, in the
// order of the list, but of points that were found worn or failed as well. Of a machine that stands, for which nothing
// is planned, also all that forbids to run it (`run_ban.h`), listed signs too. Points into the list and its fleet.
std::vector<WaitsToMend> waiting_to_mend(const DueList& list);

// What the task of a point does, as it is written, mends nothing of this: it was found worn or failed, or measured at
// or past its limit, and the task puts in nothing new. Such work is done and the machine still waits.
bool leaves_unmended(const DueList& list, const Point& point);

}  // namespace service

#pragma GCC visibility pop
