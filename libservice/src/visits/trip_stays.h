// What a crew's trip to a site holds: the work at each machine is one stay, set-up before the first of them, and a stay
// lies in one span in which the site is open, as in a round.
#pragma once

#include <optional>
#include <vector>

#include "service/rounds.h"
#include "visits/crew_days.h"
#include "visits/trips.h"

namespace service::visits::trip {

struct TripHours {
  int leaves = 0;  // minutes of the day: not before; likewise back by
  int back = 0;
  std::optional<int> duty;
  int meal = 0;
  int there = 0;  // of driving
  int home = 0;
  int set_up = 0;
  std::vector<ClockSpan> open;  // in order and apart
};

TripHours hours_of(const CrewDay& day, const Trip& trip, std::vector<ClockSpan> open);

// The same, with a gate that is never shut.
TripHours without_gate(TripHours hours);

// The longest one stay, without set-up; below zero: none.
int longest_stay(const TripHours& hours);

// The longest stay behind another one, which has set up; at most.
int longest_behind(const TripHours& hours);

// No trip holds more minutes of work than these, however it is shared out; below zero: none.
int most_work(const TripHours& hours);

// Whether stays of so many minutes fit, in some order.
bool holds(const TripHours& hours, const std::vector<int>& stays);

}  // namespace service::visits::trip
