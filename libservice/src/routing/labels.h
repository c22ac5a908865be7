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

using Halves = std::bitset<most_triples>;  // triples of which a partial round has done one, or three

// A round so far: it has ended its stay at a stop.
template <class Stops>
struct Label {
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
    live_.resize(count);
    of_stop_.resize(count);
    remembers_.resize(count);
    std::vector<int> stop_of(prices.jobs.size(), -1);
    for (std::size_t s = 0; s < count; ++s) stop_of[static_cast<std::size_t>(kind.stops[s].job)] = static_cast<int>(s);
    for (std::size_t t = 0; t < prices.triples.size() && t < most_triples; ++t) {
      if (prices.of_triples[t] == 0) continue;
      for (const int job : prices.triples[t]) {
        const int stop = stop_of[static_cast<std::size_t>(job)];
        if (stop >= 0) of_stop_[static_cast<std::size_t>(stop)].push_back(t);
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
    slots_.resize(static_cast<std::size_t>(kind.shift->closes - kind.shift->opens) + 1);
  }

  // False where it gave up at `most_labels`, or was stopped.
  bool run(std::size_t labels_a_stop, std::size_t most_labels, const std::function<bool()>& stop) {
    std::size_t looked_at = 0;
    labels_a_stop_ = labels_a_stop;
    Label<Stops> start;
    start.stop = kind_.start();
    start.end = kind_.shift->opens;
    start.may_leave = kind_.shift->closes;
    start.cost = -price_;
    for (int to = 0; to < kind_.start(); ++to) extend(start, -1, to);
    for (std::size_t slot = 0; slot < slots_.size(); ++slot) {
      for (std::size_t i = 0; i < slots_[slot].size(); ++i) {  // grows while stays take no time
        const int number = slots_[slot][i];
        if (labels_[static_cast<std::size_t>(number)].dominated) continue;
        if (most_labels != 0 && labels_.size() > most_labels) return false;
        if (++looked_at % 512 == 0 && stop && stop()) return false;
        const Label<Stops> label = labels_[static_cast<std::size_t>(number)];
        for (int to = 0; to < kind_.start(); ++to) {
          if (!label.done.test(static_cast<std::size_t>(to))) extend(label, number, to);
        }
      }
    }
    return true;
  }

  // What it costs to go home from there; none where that is not possible.
  std::optional<Mills> closed(const Label<Stops>& label) const {
    const auto stop = static_cast<std::size_t>(label.stop);
    const Shift& shift = *kind_.shift;
    const Minute home = kind_.home_minutes[stop];
    Minute end = label.end;
    const Minute busy = label.busy + home;
    if (kind_.duty_counts) {
      // Leaving later only helps while nobody has to wait less for it: from below, for spans are not looked at again.
      const Minute leaves = std::min(label.may_leave, std::max(shift.opens, shift.closes - busy - shift.meal));
      const Minute back = std::max({end + home, leaves + busy + shift.meal});
      if (back > shift.closes || std::max(end + home - leaves, busy + shift.meal) > shift.duty) return std::nullopt;
    } else if (kind_.meal_counts && end + home < shift.opens + busy + shift.meal) {
      const Stop& last = kind_.stops[stop];
      const auto start = earliest_start(*last.spans, shift.opens + busy + shift.meal - home - label.stay, label.stay);
      if (!start) return std::nullopt;
      end = *start + label.stay;
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
    const auto start = earliest_start(*stop.spans, from.end + way.drive, way.stay);
    if (!start) return;
    label.stop = to;
    label.before = from.stop;
    label.parent = parent;
    label.stay = way.stay;
    label.end = *start + way.stay;
    label.busy = from.busy + way.drive + way.stay;
    label.may_leave = std::min(from.may_leave, stop.spans->back().to - label.busy);
    const Minute home = kind_.home_minutes[static_cast<std::size_t>(to)];
    if (label.end + home > shift.closes) return;
    if (kind_.meal_counts && shift.opens + label.busy + home + shift.meal > shift.closes) return;
    if (kind_.duty_counts && label.busy + home + shift.meal > shift.duty) return;
    label.cost = from.cost + mills * way.cost - prices_.jobs[static_cast<std::size_t>(stop.job)];
    label.halves = from.halves;
    for (const std::size_t triple : of_stop_[static_cast<std::size_t>(to)]) {
      if (label.halves.test(triple)) label.cost -= prices_.of_triples[triple];
      label.halves.flip(triple);
    }
    if (label.cost + home_.from(to, label.end, from.stop) >= below_) return;
    // Where no time has passed nothing is forgotten: it would go round for ever.
    label.done = label.end == from.end ? from.done : from.done & remembers_[static_cast<std::size_t>(to)];
    label.done.set(static_cast<std::size_t>(to));
    if (dominance_ == Dominance::exact) block_late(label);
    if (is_dominated(label)) return;
    const int number = static_cast<int>(labels_.size());
    slots_[static_cast<std::size_t>(label.end - shift.opens)].push_back(number);
    if (dominance_ == Dominance::same_stops) {
      by_stops_[label.done].push_back(number);
    } else {
      live_[static_cast<std::size_t>(to)].push_back(number);
    }
    labels_.push_back(label);
    if (labels_a_stop_ != 0) thin_out(live_[static_cast<std::size_t>(to)]);
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

  bool dominates(const Label<Stops>& a, const Label<Stops>& b) const {
    if (a.end > b.end || a.cost > b.cost) return false;
    // With a meal the last stay may be put later, and a shorter one fits in sooner.
    if ((kind_.meal_counts || kind_.duty_counts) && (a.busy > b.busy || a.stay > b.stay)) return false;
    if (kind_.duty_counts && a.may_leave < b.may_leave) return false;
    if (kind_.load_counts && a.load > b.load) return false;
    if (dominance_ == Dominance::loose || dominance_ == Dominance::same_stops) return true;
    if ((a.done & ~b.done).any()) return false;
    const Halves only_a = a.halves & ~b.halves;
    if (only_a.none()) return true;
    Mills cost = a.cost;
    for (std::size_t t = only_a._Find_first(); t < most_triples; t = only_a._Find_next(t)) {
      cost -= prices_.of_triples[t];
      if (cost > b.cost) return false;
    }
    return true;
  }

  bool is_dominated(const Label<Stops>& label) {
    if (dominance_ == Dominance::none) return false;
    std::vector<int>* live = nullptr;
    if (dominance_ == Dominance::same_stops) {
      const auto same = by_stops_.find(label.done);
      if (same == by_stops_.end()) return false;
      live = &same->second;
    } else {
      live = &live_[static_cast<std::size_t>(label.stop)];
    }
    std::size_t kept = 0;
    for (std::size_t i = 0; i < live->size(); ++i) {
      Label<Stops>& other = labels_[static_cast<std::size_t>((*live)[i])];
      if (other.stop == label.stop && dominates(other, label)) {
        std::copy(live->begin() + static_cast<std::ptrdiff_t>(i), live->end(),
                  live->begin() + static_cast<std::ptrdiff_t>(kept));
        live->resize(live->size() - (i - kept));
        return true;
      }
      if (other.stop == label.stop && dominates(label, other)) {
        other.dominated = true;
        continue;
      }
      (*live)[kept++] = (*live)[i];
    }
    live->resize(kept);
    return false;
  }

  // Only the cheapest stay.
  void thin_out(std::vector<int>& live) {
    if (live.size() <= labels_a_stop_) return;
    const auto worst = std::max_element(live.begin(), live.end(), [&](int a, int b) {
      return labels_[static_cast<std::size_t>(a)].cost < labels_[static_cast<std::size_t>(b)].cost;
    });
    labels_[static_cast<std::size_t>(*worst)].dominated = true;
    live.erase(worst);
  }

  const ShiftKind& kind_;
  const Prices& prices_;
  const WayHome& home_;
  Dominance dominance_;
  Mills below_;
  Mills price_;
  std::size_t labels_a_stop_ = 0;
  std::vector<Label<Stops>> labels_;
  std::vector<std::vector<int>> slots_;  // by the minute of ending
  std::vector<std::vector<int>> live_;   // by stop
  std::unordered_map<Stops, std::vector<int>> by_stops_;
  std::vector<std::vector<std::size_t>> of_stop_;  // triples
  std::vector<Stops> remembers_;
};

}  // namespace service::routing
