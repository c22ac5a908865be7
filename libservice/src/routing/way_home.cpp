#include "routing/way_home.h"

#include <algorithm>

namespace service::routing {
namespace {

constexpr Mills nowhere = INT64_MAX / 4;

}  // namespace

WayHome::WayHome(const ShiftKind& kind, const Prices& prices, std::size_t slots) : opens_(kind.shift->opens) {
  const Minute length = kind.shift->closes - opens_;
  step_ = std::max<Minute>(1, length / static_cast<Minute>(slots));
  slots_ = static_cast<std::size_t>(length / step_) + 1;
  table_.resize(kind.stops.size() * slots_);
  for (int from = 0; from <= kind.start(); ++from) {
    for (int to = 0; to < kind.start(); ++to) {
      const auto job = static_cast<std::size_t>(kind.stops[static_cast<std::size_t>(to)].job);
      costs_.push_back(mills * kind.way(from, to).cost - prices.jobs[job]);
    }
  }
  // Backwards in time. What takes no time at all leads to the same slot again: as often as there are stops is enough,
  // for each time adds one to what a real round can do there.
  for (std::size_t slot = slots_; slot-- > 0;) {
    const Minute end = opens_ + static_cast<Minute>(slot) * step_;
    for (std::size_t s = 0; s < kind.stops.size(); ++s) table_[s * slots_ + slot] = {nowhere, -2, nowhere};
    bool changed = true;
    for (std::size_t pass = 0; changed && pass <= kind.stops.size(); ++pass) {
      changed = false;
      in_slot_ = false;
      for (std::size_t s = 0; s < kind.stops.size(); ++s) {
        const Best best = reckon(kind, static_cast<int>(s), end);
        Best& old = table_[s * slots_ + slot];
        changed = changed || best.least != old.least || best.otherwise != old.otherwise;
        old = best;
      }
      changed = changed && in_slot_;
    }
  }
  const Best whole = reckon(kind, kind.start(), opens_);
  least_ = std::min<Mills>(0, whole.least);
}

WayHome::Best WayHome::reckon(const ShiftKind& kind, int from, Minute end) {
  Best best{nowhere, -2, nowhere};
  const auto take = [&](Mills cost, int next) {
    if (cost < best.least) {
      best.otherwise = best.least;
      best.least = cost;
      best.next = next;
    } else if (cost < best.otherwise) {
      best.otherwise = cost;
    }
  };
  if (from != kind.start() && end + kind.home_minutes[static_cast<std::size_t>(from)] <= kind.shift->closes) {
    take(mills * kind.home_cost[static_cast<std::size_t>(from)], -1);
  }
  const Mills* costs = costs_.data() + static_cast<std::size_t>(from) * kind.stops.size();
  for (int to = 0; to < kind.start(); ++to) {
    if (to == from) continue;
    const Minute then_end = kind.end_of(from, to, end + kind.way(from, to).drive);
    if (then_end == never) continue;
    in_slot_ = in_slot_ || slot_of(then_end) == slot_of(end);
    const Best& then = at(to, then_end);
    const Mills rest = then.next == from ? then.otherwise : then.least;
    if (rest >= nowhere) continue;
    take(costs[to] + rest, to);
  }
  return best;
}

}  // namespace service::routing
