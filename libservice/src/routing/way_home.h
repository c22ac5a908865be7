// From below: what it costs at least to go on and home from a stop at a time of day.
#pragma once

#include <vector>

#include "routing/kinds.h"
#include "routing/prices.h"

namespace service::routing {

// Rounds in it may do a job again and again, but never straight after the one between: so nothing real is cheaper.
class WayHome {
 public:
  // `slots` of the day: a coarser table is weaker, sooner made, and never wrong.
  WayHome(const ShiftKind& kind, const Prices& prices, std::size_t slots);

  // Having ended a stay at `stop` at `end`, reached from `before`; home included.
  Mills from(int stop, Minute end, int before) const {
    const Best& best = at(stop, end);
    return best.next == before ? best.otherwise : best.least;
  }

  // Of the whole shift, at least.
  Mills least() const { return least_; }

 private:
  struct Best {
    Mills least = 0;
    int next = -1;        // the stop gone to for that; -1: home
    Mills otherwise = 0;  // the least by another stop, or home
  };

  const Best& at(int stop, Minute end) const { return table_[static_cast<std::size_t>(stop) * slots_ + slot_of(end)]; }
  std::size_t slot_of(Minute end) const { return static_cast<std::size_t>((end - opens_) / step_); }
  Best reckon(const ShiftKind& kind, int from, Minute end);

  Minute opens_ = 0;
  Minute step_ = 1;
  std::size_t slots_ = 0;
  std::vector<Mills> costs_;  // of the ways, at the prices
  bool in_slot_ = false;      // some way led to the slot that it came from
  std::vector<Best> table_;
  Mills least_ = 0;
};

}  // namespace service::routing
