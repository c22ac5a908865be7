// The shortest path over a site's days, against all sets of days and all ways to share out the work to them.
#include "visits/trip_path.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cstdint>
#include <random>

using namespace service::visits;
using namespace service::visits::trip;

namespace {

// A mapping of our own, for the standard's differ from library to library.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  int roll(int from, int to) { return from + static_cast<int>(engine_() % static_cast<std::uint64_t>(to - from + 1)); }

 private:
  std::mt19937_64 engine_;
};

// Falls by steps that get smaller until its best day, and rises by growing ones.
PathUnit random_unit(Dice& dice, int days) {
  PathUnit unit;
  unit.first = dice.roll(0, 4) == 0 ? dice.roll(0, days - 1) : 0;
  unit.last = dice.roll(0, 4) == 0 ? dice.roll(unit.first, days - 1) : days - 1;
  const int due = dice.roll(-2, days + 1);
  const int early = dice.roll(0, 9);
  const int late = dice.roll(0, 9);
  const int bend = dice.roll(0, 1);
  for (int day = 0; day < days; ++day) {
    const int off = day - due;
    unit.costs.push_back(off < 0 ? Cost{-off} * early : Cost{off} * late + Cost{off} * off * bend);
  }
  return unit;
}

Cost least_from(const PathProblem& problem, const std::vector<int>& chosen, std::vector<int>& day_of) {
  const std::size_t unit = day_of.size();
  if (unit == problem.units.size()) {
    for (const PathLink& link : problem.links) {
      if (day_of[static_cast<std::size_t>(link.inner)] > day_of[static_cast<std::size_t>(link.outer)]) {
        return impossible;
      }
    }
    Cost cost = 0;
    for (std::size_t i = 0; i < day_of.size(); ++i) cost += problem.units[i].at(day_of[i]);
    return cost;
  }
  Cost least = impossible;
  for (const int day : chosen) {
    if (problem.units[unit].at(day) == impossible) continue;
    day_of.push_back(day);
    least = std::min(least, least_from(problem, chosen, day_of));
    day_of.pop_back();
  }
  return least;
}

Cost of_all_sets(const PathProblem& problem) {
  Cost least = impossible;
  const auto days = static_cast<int>(problem.trips.size());
  for (unsigned set = 1; set < 1U << static_cast<unsigned>(days); ++set) {
    std::vector<int> chosen;
    Cost trips = 0;
    for (int day = 0; day < days; ++day) {
      if ((set >> static_cast<unsigned>(day) & 1U) == 0) continue;
      chosen.push_back(day);
      trips += problem.trips[static_cast<std::size_t>(day)];
    }
    if (!problem.links.empty()) {
      std::vector<int> day_of;
      least = std::min(least, trips + least_from(problem, chosen, day_of));
      continue;
    }
    Cost cost = trips;
    for (const PathUnit& unit : problem.units) {
      Cost cheapest = impossible;
      for (const int day : chosen) cheapest = std::min(cheapest, unit.at(day));
      cost += cheapest;
    }
    least = std::min(least, cost);
  }
  return least;
}

// What a plan says it costs, reckoned from its days.
Cost value_of(const PathProblem& problem, const PathPlan& plan) {
  std::vector<int> days = plan.day_of;
  std::sort(days.begin(), days.end());
  days.erase(std::unique(days.begin(), days.end()), days.end());
  Cost cost = 0;
  for (const int day : days) cost += problem.trips[static_cast<std::size_t>(day)];
  for (std::size_t i = 0; i < plan.day_of.size(); ++i) cost += problem.units[i].at(plan.day_of[i]);
  return cost;
}

PathProblem random_site(Dice& dice, int most_days, int most_units) {
  PathProblem problem;
  const int days = dice.roll(1, most_days);
  for (int day = 0; day < days; ++day) problem.trips.emplace_back(dice.roll(0, 30));
  const int units = dice.roll(1, most_units);
  for (int i = 0; i < units; ++i) problem.units.push_back(random_unit(dice, days));
  return problem;
}

}  // namespace

TEST_CASE("one trip or two") {
  // Days 0 to 4; one unit is best on day 0, the other on day 4.
  PathProblem problem;
  problem.trips = {10, 10, 10, 10, 10};
  problem.units = {{0, 4, {0, 3, 6, 9, 12}}, {0, 4, {8, 6, 4, 2, 0}}};
  CHECK((shortest_path(problem).value == 18));  // both on day 0
  CHECK((shortest_path(problem).day_of == std::vector<int>{0, 0}));
  problem.trips = {7, 7, 7, 7, 7};
  CHECK((shortest_path(problem).value == 14));
  CHECK((shortest_path(problem).day_of == std::vector<int>{0, 4}));
  problem.trips = {10, 10, 10, 10, 1};
  CHECK((shortest_path(problem).value == 11));
  problem.units[0].last = 2;  // and not later
  problem.trips = {30, 10, 10, 10, 10};
  CHECK((shortest_path(problem).value == 19));
  CHECK((shortest_path(problem).day_of == std::vector<int>{1, 1}));
}

TEST_CASE("what includes another is not done before it, where both lie between two trips") {
  PathProblem problem;
  problem.trips = {5, 5, 5, 5};
  // The inner one is best on day 1, and waiting is cheap; the outer one on day 2, and being early is cheap. Two more
  // make trips on the first and on the last day.
  problem.units = {{0, 3, {6, 0, 1, 2}}, {0, 3, {2, 1, 0, 6}}, {0, 0, {0, 0, 0, 0}}, {3, 3, {0, 0, 0, 0}}};
  CHECK((shortest_path(problem).value == 14));  // the inner one late, the outer one early
  CHECK((shortest_path(problem).day_of == std::vector<int>{3, 0, 0, 3}));
  problem.links = {{0, 1}};
  const PathPlan plan = shortest_path(problem);
  CHECK((plan.value == 16));  // one more trip, on either day in between
  CHECK(plan.day_of[0] == plan.day_of[1]);
  problem.trips = {5, 50, 50, 5};
  CHECK((shortest_path(problem).value == 18));  // both early, or both late
  CHECK(shortest_path(problem).day_of[0] == shortest_path(problem).day_of[1]);
}

TEST_CASE("the path costs as little as the best of all sets of days") {
  Dice dice(20260503);
  for (int i = 0; i < 400; ++i) {
    const PathProblem problem = random_site(dice, 9, 7);
    const PathPlan plan = shortest_path(problem);
    CAPTURE(i);
    CHECK((plan.value == of_all_sets(problem)));
    CHECK((plan.value == value_of(problem, plan)));
  }
}

TEST_CASE("and so it does where services include others") {
  Dice dice(40961);
  int bound_links = 0;
  for (int i = 0; i < 300; ++i) {
    // Trips are made on the first and the last day in any case; what is best done in between has to choose, and early
    // work that waits cheaply would go behind late work that is cheap to do early.
    PathProblem problem;
    problem.trips = {0, dice.roll(5, 40), dice.roll(5, 40), dice.roll(5, 40), dice.roll(5, 40), 0};
    problem.units = {{0, 0, std::vector<Cost>(6)}, {5, 5, std::vector<Cost>(6)}};
    const int more = dice.roll(2, 4);
    for (int unit = 0; unit < more; ++unit) {
      const int due = dice.roll(1, 4);
      const bool wrong_way = dice.roll(0, 1) == 0;
      const int early = wrong_way ? (due > 2 ? 1 : 9) : dice.roll(0, 9);
      const int late = wrong_way ? (due > 2 ? 9 : 1) : dice.roll(0, 9);
      PathUnit one{0, 5, {}};
      for (int day = 0; day < 6; ++day) one.costs.emplace_back(day < due ? (due - day) * early : (day - due) * late);
      problem.units.push_back(one);
    }
    const PathProblem without = problem;
    for (int inner = 0; inner < static_cast<int>(problem.units.size()); ++inner) {
      for (int outer = 0; outer < static_cast<int>(problem.units.size()); ++outer) {
        const auto best = [&](int unit) { return problem.units[static_cast<std::size_t>(unit)].best(); };
        if (best(inner) < best(outer) && dice.roll(0, 1) == 0) problem.links.push_back({inner, outer});
      }
    }
    const PathPlan plan = shortest_path(problem);
    CAPTURE(i);
    CHECK((plan.value == of_all_sets(problem)));
    CHECK((plan.value == value_of(problem, plan)));
    for (const PathLink& link : problem.links) {
      const int inner = plan.day_of[static_cast<std::size_t>(link.inner)];
      const int outer = plan.day_of[static_cast<std::size_t>(link.outer)];
      CHECK(inner <= outer);
    }
    if (shortest_path(without).value < plan.value) ++bound_links;
  }
  CHECK(bound_links > 0);  // links mattered
}
