// What a crew's day has to hold for work that fits into none by itself.
#pragma once

#include <optional>
#include <vector>

#include "service/rounds.h"
#include "service/visits.h"

#pragma GCC visibility push(default)

namespace service {

// The day that comes nearest to it. All times are minutes.
struct DayAlone {
  const Crew* crew = nullptr;
  Day on;
  int work = 0;
  int set_up = 0;
  int meal = 0;
  int drive = 0;                // there and back
  int away = 0;                 // the longest that the crew is away that day
  std::vector<ClockSpan> open;  // in one of which the work lies in one stay, with the set-up; the whole day: no gate
  std::vector<ClockSpan> wanted = {};  // of a call: likewise; empty: at any time
  // So long is that at most, by the gate and by when it is wanted, whoever goes: where the work is longer, no crew's
  // hours stand in its way.
  int longest_span = 0;
  // The meal stands in its way: it is eaten before the last stay at the latest. With another stop behind it, where
  // there is time for the meal, it may fit.
  bool but_for_meal = false;
};

// Of a visit that is unreachable; none where no crew-day is open to it at all.
std::optional<DayAlone> nearest_day_alone(const Week& week, std::size_t visit);

// Of a service that is unreachable by itself.
std::optional<DayAlone> nearest_day_alone(const VisitsPlan& plan, const NotPossible& out);

}  // namespace service

#pragma GCC visibility pop
