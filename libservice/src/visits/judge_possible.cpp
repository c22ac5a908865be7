#include "visits/judge_possible.h"

#include <algorithm>

namespace service::visits {
namespace {

constexpr int last_minute = 24 * 60;

// The first minute from then on at which the stay may start.
std::optional<int> next_start(const TimedStop& stop, int from) {
  if (stop.starts) return *stop.starts >= from ? stop.starts : std::nullopt;
  if (stop.spans == nullptr) return from;
  std::optional<int> first;
  for (const ClockSpan& span : *stop.spans) {
    const int start = std::max(span.from, from);
    if (start + stop.stay <= span.to && (!first || start < *first)) first = start;
  }
  return first;
}

// From there on to the start of the next stay.
struct Step {
  int there = 0;  // at the gate
  std::optional<int> starts;
  bool too_late = false;
};

Step step_to(const TimedStop& stop, int at) {
  Step step{at + stop.drive, std::nullopt};
  if (stop.arrives && step.there > *stop.arrives) return {step.there, std::nullopt, true};
  step.there = stop.arrives.value_or(step.there);
  step.starts = next_start(stop, step.there);
  step.too_late = !step.starts && stop.starts;
  return step;
}

std::optional<int> earliest_back(const TimedRound& round, int leaves) {
  int at = leaves;
  for (const TimedStop& stop : round.stops) {
    const bool last = &stop == &round.stops.back();
    auto starts = step_to(stop, at).starts;
    // Whatever is left of the meal is eaten before the last stay at the latest.
    const int fed = leaves + round.busy() + round.meal - round.home - stop.stay;
    if (starts && last && *starts < fed) starts = next_start(stop, fed);
    if (!starts) return std::nullopt;
    at = *starts + stop.stay;
  }
  return at + round.home;
}

}  // namespace

int TimedRound::busy() const {
  int minutes = home;
  for (const TimedStop& stop : stops) minutes += stop.drive + stop.stay;
  return minutes;
}

std::vector<TimedRun> possible_runs(const TimedRound& round) {
  std::vector<TimedRun> runs;
  const int first = round.leaves.value_or(round.from);
  const int last = round.leaves.value_or(round.to.value_or(last_minute));
  for (int leaves = first; leaves <= last; ++leaves) {
    const auto back = earliest_back(round, leaves);
    if (!back) break;  // nor does leaving still later help
    if (round.to && *back > *round.to) break;
    if (round.duty && *back - leaves > *round.duty) continue;
    runs.push_back({leaves, *back});
  }
  return runs;
}

std::optional<Stuck> stuck_at(const TimedRound& round, int leaves) {
  int at = leaves;
  for (std::size_t i = 0; i < round.stops.size(); ++i) {
    const Step step = step_to(round.stops[i], at);
    if (!step.starts) return Stuck{i, step.there, step.too_late};
    at = *step.starts + round.stops[i].stay;
  }
  return std::nullopt;
}

}  // namespace service::visits
