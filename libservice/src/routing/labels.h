// Partial rounds, extended stop by stop in the order of time.
#pragma once

#include <algorithm>
#include <bitset>
#include <cstddef>
#include <functional>
#include <optional>
#include <unordered_map>
#include <vector>

#include "routing/pricing.h"
#include "routing/stays.h"

namespace service::routing {

inline constexpr std::size_t most_triples = 192;
inline constexpr std::size_t labels_between_looks = 16;  // at whether to stop

using Halves = std::bitset<most_triples>;  // triples of which a partial round has done one, or three

// A round so far: it has ended its stay at a stop.
template <class Stops>
struct Label {
  int number = 0;  // its own
  int stop = 0;
  int before = -1;       // the stop before; that of the shift's start for the first
  int parent = -1;       // label; -1: the start
  Minute end = 0;        // when leaving as early as may be
  Minute busy = 0;       // driving, set-up and work until then
  Minute may_leave = 0;  // the latest leaving with which it is in time so far
  Minute stay = 0;       // the last one
  int load = 0;
  Mills cost = 0;
  Stops done;  // may not be gone to any more
  Halves halves;
  bool dominated = false;
};

// What of a label is looked at when others are held against it: read often, so kept close together.
template <class Stops>
struct Rival {
  Mills cost = 0;
  Stops done;
  Minute end = 0;
  Minute busy = 0;
  Minute may_leave = 0;
  Minute stay = 0;
  int load = 0;
  int number = -1;  // of the label
};

enum class Dominance {
  loose,  // what has been done is not looked at: some good rounds are missed
  exact,
  same_stops,  // only of rounds that do the same: nothing is missed that differs in what it does
  none,
};

template <class Stops>
class Labels {
 public:
  Labels(const ShiftKind& kind, std::size_t number, const Prices& prices, const WayHome& home, const Memory* memory,
         Dominance dominance, Mills below)
      : kind_(kind), prices_(prices), home_(home), dominance_(dominance), below_(below), price_(prices.kinds[number]) {
    const std::size_t count = kind.stops.size();
    rivals_.resize(count);
    next_ends_.resize(kind.leavings.size());
    by_stops_.resize(count);
    of_stop_.resize(count);
    remembers_.resize(count);
    std::vector<int> stop_of(prices.jobs.size(), -1);
    for (std::size_t s = 0; s < count; ++s) stop_of[static_cast<std::size_t>(kind.stops[s].job)] = static_cast<int>(s);
    for (std::size_t t = 0; t < prices.triples.size() && t < most_triples; ++t) {
      if (prices.of_triples[t] == 0) continue;
      for (const int job : prices.triples[t]) {
        const int stop = stop_of[static_cast<std::size_t>(job)];
        if (stop < 0) continue;
        of_stop_[static_cast<std::size_t>(stop)].push_back(t);
        triples_count_ = true;
      }
    }
    for (std::size_t s = 0; s < count; ++s) {
      if (memory == nullptr) {
        remembers_[s].set();
        continue;
      }
      for (const int job : (*memory)[static_cast<std::size_t>(kind.stops[s].job)]) {
        const int stop = stop_of[static_cast<std::size_t>(job)];
        if (stop >= 0) remembers_[s].set(static_cast<std::size_t>(stop));
      }
    }
    most_busy_ = std::min(kind.shift->duty, kind.shift->closes - kind.shift->opens) - kind.shift->meal;
    slots_.resize(static_cast<std::size_t>(kind.shift->closes - kind.shift->opens) + 1);
  }

  // False where it gave up at `most_labels`, or was stopped.
  bool run(std::size_t labels_a_stop, std::size_t most_labels, const std::function<bool()>& stop) {
    std::size_t looked_at = 0;
    labels_a_stop_ = labels_a_stop;
    Label<Stops> start;
    start.stop = kind_.start();
    start.end = kind_.shift->opens;
    // Leaving later than that never helps: back is not after the shift closes.
    start.may_leave = latest_leaving();
    start.cost = -price_;
    for (int to = 0; to < kind_.start(); ++to) extend(start, -1, to);
    for (std::size_t slot = 0; slot < slots_.size(); ++slot) {
      for (std::size_t i = 0; i < slots_[slot].size(); ++i) {  // grows while stays take no time
        const int number = slots_[slot][i];
        if (labels_[static_cast<std::size_t>(number)].dominated) continue;
        if (most_labels != 0 && labels_.size() > most_labels) return give_up(slot, i);
        if (++looked_at % labels_between_looks == 0 && stop && stop()) return give_up(slot, i);
        const Label<Stops> label = labels_[static_cast<std::size_t>(number)];
        for (int to = 0; to < kind_.start(); ++to) {
          if (!label.done.test(static_cast<std::size_t>(to))) extend(label, number, to);
        }
      }
    }
    return true;
  }

  // Where it gave up: no round that was not looked at costs less, as far as the way home tells. It never falls while
  // time goes on.
  Mills least_unseen() const { return least_unseen_; }

  // What it costs to go home from there; none where that is not possible.
  std::optional<Mills> closed(const Label<Stops>& label) const {
    const auto stop = static_cast<std::size_t>(label.stop);
    const Shift& shift = *kind_.shift;
    const Minute home = kind_.home_minutes[stop];
    Minute end = label.end;
    const Minute busy = label.busy + home;
    if (busy_counts() && busy > most_busy_) return std::nullopt;
    if (!kind_.leavings.empty()) {
      if (!back_in_time(label)) return std::nullopt;
    } else if (kind_.duty_counts) {
      if (end + home - label.may_leave > shift.duty) return std::nullopt;
    } else if (kind_.meal_counts) {
      const auto late = end_with_meal(label, end, shift.opens);
      if (!late) return std::nullopt;
      end = *late;
    }
    if (end + home > shift.closes) return std::nullopt;
    return label.cost + mills * kind_.home_cost[stop];
  }

  Route route_of(const Label<Stops>& last) const {
    Route route;
    for (const Label<Stops>* label = &last;; label = &labels_[static_cast<std::size_t>(label->parent)]) {
      route.push_back(kind_.stops[static_cast<std::size_t>(label->stop)].job);
      if (label->parent < 0) break;
    }
    std::reverse(route.begin(), route.end());
    return route;
  }

  Pence cost_of(const Label<Stops>& last) const {
    Pence cost = kind_.home_cost[static_cast<std::size_t>(last.stop)];
    for (const Label<Stops>* label = &last;; label = &labels_[static_cast<std::size_t>(label->parent)]) {
      cost += kind_.way(label->before, label->stop).cost;
      if (label->parent < 0) break;
    }
    return cost;
  }

  const std::vector<Label<Stops>>& all() const { return labels_; }

 private:
  Minute latest_leaving() const {
    return kind_.duty_counts ? std::max(kind_.shift->opens, kind_.shift->closes - kind_.shift->duty)
                             : kind_.shift->closes;
  }

  // When the last stay ends that has to be put off until there was time for the meal; `end`: without it.
  std::optional<Minute> end_with_meal(const Label<Stops>& label, Minute end, Minute leaves) const {
    const auto stop = static_cast<std::size_t>(label.stop);
    const Minute least = leaves + label.busy + kind_.shift->meal;
    if (end >= least) return end;
    const auto start = earliest_start(*kind_.stops[stop].spans, least - label.stay, label.stay);
    if (!start) return std::nullopt;
    return *start + label.stay;
  }

  bool back_in_time(const Label<Stops>& label) const {
    const Shift& shift = *kind_.shift;
    const Minute home = kind_.home_minutes[static_cast<std::size_t>(label.stop)];
    const Minute* ends = ends_of(label.number);
    for (std::size_t i = 0; i < kind_.leavings.size(); ++i) {
      if (ends[i] == never) continue;
      const auto end = kind_.meal_counts ? end_with_meal(label, ends[i], kind_.leavings[i].from) : ends[i];
      if (end && *end + home <= std::min(shift.closes, kind_.leavings[i].to + shift.duty)) return true;
    }
    return false;
  }

  const Minute* ends_of(int number) const {
    return ends_.data() + static_cast<std::size_t>(number) * kind_.leavings.size();
  }

  // The ends of a stay at `to` by the time of leaving, into `next_ends_`; false where there are none.
  bool reckon_ends(int from, int parent, int to) {
    const Way& way = kind_.way(from, to);
    const Shift& shift = *kind_.shift;
    const Minute home = kind_.quickest_home[static_cast<std::size_t>(to)];
    bool any = false;
    for (std::size_t i = 0; i < kind_.leavings.size(); ++i) {
      const Minute left = parent < 0 ? kind_.leavings[i].from : ends_of(parent)[i];
      next_ends_[i] = never;
      if (left == never) continue;
      const Minute end = kind_.end_of(from, to, left + way.drive);
      if (end == never || end + home > std::min(shift.closes, kind_.leavings[i].to + shift.duty)) continue;
      next_ends_[i] = end;
      any = true;
    }
    return any;
  }

  // What is yet to be extended stands for all that could have come of it.
  bool give_up(std::size_t slot, std::size_t from) {
    least_unseen_ = INT64_MAX / 4;
    for (; slot < slots_.size(); ++slot, from = 0) {
      for (std::size_t i = from; i < slots_[slot].size(); ++i) {
        const Label<Stops>& label = labels_[static_cast<std::size_t>(slots_[slot][i])];
        if (label.dominated) continue;
        least_unseen_ = std::min(least_unseen_, label.cost + home_.from(label.stop, label.end, label.before));
      }
    }
    return false;
  }

  void extend(const Label<Stops>& from, int parent, int to) {
    const Stop& stop = kind_.stops[static_cast<std::size_t>(to)];
    const Shift& shift = *kind_.shift;
    // At one place, with one span alike, the order makes no difference: one of them will do.
    if (from.stop != kind_.start() && dominance_ != Dominance::none) {
      const Stop& last = kind_.stops[static_cast<std::size_t>(from.stop)];
      if (last.place == stop.place && to < from.stop && last.one_span && stop.one_span && *last.spans == *stop.spans) {
        return;
      }
    }
    const Way& way = kind_.way(from.stop, to);
    Label<Stops> label;
    label.load = from.load + stop.load;
    if (label.load > shift.capacity) return;
    label.end = kind_.end_of(from.stop, to, from.end + way.drive);
    if (label.end == never) return;
    label.stop = to;
    label.before = from.stop;
    label.parent = parent;
    label.stay = way.stay;
    label.busy = from.busy + way.drive + way.stay;
    label.may_leave = std::min(from.may_leave, stop.spans->back().to - label.busy);
    const Minute home = kind_.quickest_home[static_cast<std::size_t>(to)];
    if (label.end + home > shift.closes) return;
    if (busy_counts() && label.busy + home > most_busy_) return;
    if (kind_.duty_counts && label.end + home - label.may_leave > shift.duty) return;
    label.cost = from.cost + mills * way.cost - prices_.jobs[static_cast<std::size_t>(stop.job)];
    label.halves = from.halves;
    for (const std::size_t triple : of_stop_[static_cast<std::size_t>(to)]) {
      if (label.halves.test(triple)) label.cost -= prices_.of_triples[triple];
      label.halves.flip(triple);
    }
    if (label.cost + home_.from(to, label.end, from.stop) >= below_) return;
    if (!kind_.leavings.empty() && !reckon_ends(from.stop, parent, to)) return;
    // Where no time has passed nothing is forgotten: it would go round for ever.
    label.done = label.end == from.end ? from.done : from.done & remembers_[static_cast<std::size_t>(to)];
    label.done.set(static_cast<std::size_t>(to));
    if (dominance_ == Dominance::exact) block_late(label);
    Rivals& rivals = dominance_ == Dominance::same_stops ? by_stops_[static_cast<std::size_t>(to)][label.done]
                                                         : rivals_[static_cast<std::size_t>(to)];
    const int number = label.number = static_cast<int>(labels_.size());
    const Rival<Stops> rival{label.cost,      label.done, label.end,  label.busy,
                             label.may_leave, label.stay, label.load, number};
    if (dominance_ != Dominance::none && !enter(rivals, rival, label.halves)) return;
    ends_.insert(ends_.end(), next_ends_.begin(), next_ends_.end());
    slots_[static_cast<std::size_t>(label.end - shift.opens)].push_back(number);
    labels_.push_back(label);
    if (labels_a_stop_ != 0 && rivals.size() > labels_a_stop_) {  // only the cheapest stay
      labels_[static_cast<std::size_t>(rivals.back().number)].dominated = true;
      rivals.pop_back();
    }
  }

  // What can no longer be reached is as good as done, and makes rounds alike.
  void block_late(Label<Stops>& label) const {
    for (int next = 0; next < kind_.start(); ++next) {
      const auto n = static_cast<std::size_t>(next);
      if (label.done.test(n)) continue;
      const Stop& stop = kind_.stops[n];
      const bool here = stop.place == kind_.stops[static_cast<std::size_t>(label.stop)].place;
      const Minute work_from = label.end + kind_.quickest(label.stop, next) + (here ? 0 : stop.set_up);
      if (!earliest_start(*stop.spans, work_from, stop.work) || label.load + stop.load > kind_.shift->capacity) {
        label.done.set(n);
      }
    }
  }

  using Rivals = std::vector<Rival<Stops>>;  // the cheapest first

  // Whether all that can follow the one can follow the other as well, and is no dearer; of two at the same stop.
  bool dominates(const Rival<Stops>& a, const Rival<Stops>& b, const Halves& halves_a, const Halves& halves_b) const {
    if (a.end > b.end || a.cost > b.cost) return false;
    // Having been busier matters while it may yet be too busy for its duty or its meal: not where it has been idle for
    // long enough, for what follows takes the other at least as long.
    if (busy_counts() && a.busy > b.end - kind_.shift->closes + most_busy_) {
      if (a.busy > b.busy) return false;
      // The last stay may be put later for the meal, and a shorter one fits in sooner.
      if (kind_.meal_counts && a.stay > b.stay) return false;
    }
    if (kind_.duty_counts && !told_by_leavings() && a.may_leave < b.may_leave) return false;
    if (kind_.load_counts && a.load > b.load) return false;
    if (dominance_ == Dominance::exact && (a.done & ~b.done).any()) return false;
    if (!kind_.leavings.empty() && !ends_sooner(a, b)) return false;
    if (dominance_ == Dominance::loose || dominance_ == Dominance::same_stops) return true;
    if (!triples_count_) return true;
    const Halves only_a = halves_a & ~halves_b;
    Mills cost = a.cost;
    for (std::size_t t = only_a._Find_first(); t < most_triples; t = only_a._Find_next(t)) {
      cost -= prices_.of_triples[t];
      if (cost > b.cost) return false;
    }
    return true;
  }

  bool told_by_leavings() const { return !kind_.leavings.empty() && kind_.duty_exact; }
  bool busy_counts() const { return kind_.meal_counts || (kind_.duty_counts && !told_by_leavings()); }

  // One of the two is new: its ends are the next.
  bool ends_sooner(const Rival<Stops>& a, const Rival<Stops>& b) const {
    const auto of = [&](const Rival<Stops>& rival) {
      return static_cast<std::size_t>(rival.number) < labels_.size() ? ends_of(rival.number) : next_ends_.data();
    };
    const Minute* ends_a = of(a);
    const Minute* ends_b = of(b);
    for (std::size_t i = 0; i < kind_.leavings.size(); ++i) {
      if (ends_a[i] > ends_b[i]) return false;
    }
    return true;
  }

  // Among its rivals; false where one of them dominates it. Those that it dominates are out.
  bool enter(Rivals& rivals, const Rival<Stops>& rival, const Halves& halves) {
    const auto halves_of = [&](const Rival<Stops>& other) -> const Halves& {
      return labels_[static_cast<std::size_t>(other.number)].halves;
    };
    std::size_t at = 0;
    for (; at < rivals.size() && rivals[at].cost <= rival.cost; ++at) {
      if (dominates(rivals[at], rival, halves_of(rivals[at]), halves)) return false;
    }
    std::size_t kept = at;
    for (std::size_t i = at; i < rivals.size(); ++i) {
      if (dominates(rival, rivals[i], halves, halves_of(rivals[i]))) {
        labels_[static_cast<std::size_t>(rivals[i].number)].dominated = true;
      } else {
        if (kept != i) rivals[kept] = rivals[i];
        ++kept;
      }
    }
    rivals.resize(kept);
    rivals.insert(rivals.begin() + static_cast<std::ptrdiff_t>(at), rival);
    return true;
  }

  const ShiftKind& kind_;
  const Prices& prices_;
  const WayHome& home_;
  Dominance dominance_;
  Mills below_;
  Mills price_;
  Minute most_busy_ = 0;  // in a shift
  bool triples_count_ = false;
  Mills least_unseen_ = 0;
  std::size_t labels_a_stop_ = 0;
  std::vector<Label<Stops>> labels_;
  std::vector<std::vector<int>> slots_;  // by the minute of ending
  std::vector<Minute> ends_;             // by label and leaving
  std::vector<Minute> next_ends_;        // of the label that is being made
  std::vector<Rivals> rivals_;           // by stop
  std::vector<std::unordered_map<Stops, Rivals>> by_stops_;
  std::vector<std::vector<std::size_t>> of_stop_;  // triples
  std::vector<Stops> remembers_;
};

}  // namespace service::routing
