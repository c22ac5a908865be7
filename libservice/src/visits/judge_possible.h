// Whether any times at all keep the rules of a round, where some of them may be given: every minute of leaving is
// tried. Slow and plain, and of its own, so that it errs with no planner.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "service/fleet.h"

namespace service::visits {

struct TimedStop {
  int drive = 0;  // that leads to it
  int stay = 0;
  const std::vector<ClockSpan>* spans = nullptr;  // in one of which the stay lies; null: whenever
  std::optional<int> arrives;                     // as given; so the next
  std::optional<int> starts;
};

struct TimedRound {
  std::vector<TimedStop> stops;
  int home = 0;
  std::optional<int> leaves;  // as given; else any minute of the hours
  int from = 0;               // not away before
  std::optional<int> to;      // back by then
  std::optional<int> duty;
  int meal = 0;

  int busy() const;
};

struct TimedRun {
  int leaves = 0;
  int back = 0;
};

// For each minute of leaving with which it is possible the earliest coming back.
std::vector<TimedRun> possible_runs(const TimedRound& round);

inline bool is_possible(const TimedRound& round) { return !possible_runs(round).empty(); }

// Where a round that leaves then gets stuck on its way, whatever time there is for coming back.
struct Stuck {
  std::size_t stop = 0;
  int there = 0;          // at the earliest
  bool too_late = false;  // for the time that is given; else no span is left
};

std::optional<Stuck> stuck_at(const TimedRound& round, int leaves);

}  // namespace service::visits
