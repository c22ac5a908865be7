// What a trip has time for, against the clock of rounds: all orders of its stays.
#include "visits/trip_stays.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "routing/dice.h"
#include "routing/timing.h"

using namespace service;
using namespace service::visits::trip;

namespace {

constexpr int at(int hour, int minute = 0) { return hour * 60 + minute; }

TripHours usual_hours() {
  TripHours hours;
  hours.leaves = at(7, 30);
  hours.back = at(16);
  hours.there = hours.home = 30;
  hours.set_up = 10;
  hours.open = {{at(8), at(12)}, {at(13), at(15, 30)}};
  return hours;
}

// One stay at a place, at each of several machines.
bool holds_by_rounds(const TripHours& hours, const std::vector<int>& stays) {
  routing::Problem problem;
  routing::Profile profile;
  profile.places = 2;
  profile.legs = {{0, 0}, {hours.there, 0}, {hours.home, 0}, {0, 0}};
  profile.set_ups = {{0, 0}, {hours.set_up, 0}};
  problem.profiles = {profile};
  routing::Shift shift;
  shift.opens = hours.leaves;
  shift.closes = hours.back;
  if (hours.duty) shift.duty = *hours.duty;
  shift.meal = hours.meal;
  routing::Route route;
  for (const int stay : stays) {
    routing::Job job;
    job.place = 1;
    job.work = stay;
    route.push_back(static_cast<int>(problem.jobs.size()));
    problem.jobs.push_back(job);
    routing::Option option{true, 0, {}};
    for (const ClockSpan& span : hours.open) option.spans.push_back({span.from, span.to});
    shift.options.push_back(option);
  }
  bool fits = false;
  do {
    fits = fits || routing::times_of(problem, shift, route).has_value();
  } while (std::next_permutation(route.begin(), route.end()));
  return fits;
}

}  // namespace

TEST_CASE("a stay lies in one span, with the set-up before the first") {
  const TripHours hours = usual_hours();
  CHECK(most_work(hours) == 240 + 150 - 10);
  CHECK(longest_stay(hours) == 230);
  CHECK(longest_behind(hours) == 240);
  CHECK(holds(hours, {230}));
  CHECK_FALSE(holds(hours, {231}));
  CHECK(holds(hours, {230, 150}));
  CHECK_FALSE(holds(hours, {240, 140}));
  CHECK(holds(hours, {80, 150, 150}));
  CHECK_FALSE(holds(hours, {190, 190}));
  CHECK(longest_stay(without_gate(hours)) == 8 * 60 + 30 - 60 - 10);
}

TEST_CASE("a gate that is open for three hours holds no six hours of work") {
  TripHours hours = usual_hours();
  hours.open = {{at(9), at(12)}};
  CHECK(longest_stay(hours) == 170);
  CHECK_FALSE(holds(hours, {120, 120, 120}));
  hours.open = {};
  CHECK(longest_stay(hours) < 0);
  CHECK_FALSE(holds(hours, {0}));
}

TEST_CASE("a trip has time for what a round has time for") {
  routing::Dice dice(31);
  int fits = 0;
  constexpr int tries = 4000;
  for (int i = 0; i < tries; ++i) {
    CAPTURE(i);
    const auto roll = [&](int from, int to) {
      return from + static_cast<int>(dice.below(static_cast<std::size_t>(to - from + 1)));
    };
    TripHours hours;
    hours.leaves = at(6) + 15 * roll(0, 8);
    hours.back = hours.leaves + 15 * roll(10, 40);
    if (roll(0, 2) == 0) hours.duty = 15 * roll(10, 40);
    hours.meal = 15 * roll(0, 3);
    hours.there = 5 * roll(0, 8);
    hours.home = 5 * roll(0, 8);
    hours.set_up = 5 * roll(0, 4);
    int from = at(5);
    for (int span = roll(1, 3); span > 0; --span) {
      from += 15 * roll(1, 12);
      const int to = from + 15 * roll(2, 24);
      hours.open.push_back({from, to});
      from = to;
    }
    // What is not reached is not asked about.
    std::vector<ClockSpan> reached;
    for (const ClockSpan& span : hours.open) {
      const ClockSpan cut{std::max(span.from, hours.leaves + hours.there), std::min(span.to, hours.back - hours.home)};
      if (cut.from < cut.to) reached.push_back(cut);
    }
    hours.open = reached;
    std::vector<int> stays;
    for (int stay = roll(1, 4); stay > 0; --stay) stays.push_back(5 * roll(1, 40));
    const bool held = holds(hours, stays);
    CHECK(held == holds_by_rounds(hours, stays));
    fits += held ? 1 : 0;
    if (held) {
      int work = 0;
      for (const int stay : stays) work += stay;
      CHECK(work <= most_work(hours));
      for (const int stay : stays) CHECK(stay <= longest_behind(hours));
    }
    if (stays.size() == 1) CHECK(held == (stays.front() <= longest_stay(hours)));
  }
  CHECK(fits > tries / 10);
  CHECK(fits < tries * 9 / 10);
}
