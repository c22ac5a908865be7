// Shifts that are alike, and what is possible in them, laid out for reckoning.
#pragma once

#include <limits>
#include <vector>

#include "routing/problem.h"
#include "routing/weights.h"

namespace service::routing {

inline constexpr Minute never = std::numeric_limits<Minute>::max();

// A job that is possible in a kind of shift.
struct Stop {
  int job = 0;
  int place = 0;
  Minute work = 0;
  Minute set_up = 0;  // where one comes from another place
  int load = 0;
  const std::vector<Span>* spans = nullptr;
  // The one span that there is, where there is one: jobs at a place that have the same can be done in any order.
  bool one_span = false;
};

// The way from one stop to another: how long, how long the stay is that follows it, and what both cost with what the
// job costs there, less what skipping it would.
struct Way {
  Minute drive = 0;
  Minute stay = 0;
  Pence cost = 0;
};

struct ShiftKind {
  std::vector<int> shifts;  // of the problem
  const Shift* shift = nullptr;
  std::vector<Stop> stops;
  std::vector<Way> ways;              // [from * stops + to]; `from` may be `start()`
  std::vector<Minute> home_minutes;   // by stop
  std::vector<Pence> home_cost;       // likewise
  std::vector<Minute> quickest_home;  // by stop, over other places where a travel table says so
  std::vector<Minute> quickest_ways;  // [from * stops + to], likewise
  std::vector<Minute> ends;           // of stays, see `end_of`
  bool meal_counts = false;           // the length of work and driving decides what is possible
  bool duty_counts = false;           // so does how late it could have left
  bool load_counts = false;
  // Where duty counts and gates shut over noon: the times of leaving that are told apart, each from the first minute of
  // a span to the last. Within one, times are reckoned as if it left first, and duty as if it left last.
  std::vector<Span> leavings;
  bool duty_exact = true;  // else times are a relaxation, and what looks possible need not be

  int start() const { return static_cast<int>(stops.size()); }
  const Way& way(int from, int to) const {
    return ways[static_cast<std::size_t>(from) * stops.size() + static_cast<std::size_t>(to)];
  }
  Minute quickest(int from, int to) const {
    return quickest_ways[static_cast<std::size_t>(from) * stops.size() + static_cast<std::size_t>(to)];
  }
  // When a stay at `to` ends, come from `from` and arrived then; `never` where it cannot be done while the shift is
  // open.
  Minute end_of(int from, int to, Minute arrived) const {
    if (arrived > shift->closes) return never;
    const bool set_up = from == start()
                            ? shift->start != stops[static_cast<std::size_t>(to)].place
                            : stops[static_cast<std::size_t>(from)].place != stops[static_cast<std::size_t>(to)].place;
    const std::size_t row = 2 * static_cast<std::size_t>(to) + (set_up ? 1 : 0);
    return ends[row * minutes() + static_cast<std::size_t>(arrived - shift->opens)];
  }
  std::size_t minutes() const { return static_cast<std::size_t>(shift->closes - shift->opens) + 1; }
  int multiplicity() const { return static_cast<int>(shifts.size()); }
};

// Kinds in the order of their first shifts. Points into the problem.
std::vector<ShiftKind> kinds_of(const Problem& problem, const Weights& weights);

}  // namespace service::routing
