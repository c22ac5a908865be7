// Small problems against every way to do them.
#include "routing/every_plan.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cstdlib>
#include <string>

#include "routing/print.h"
#include "routing/solve.h"
#include "routing/timing.h"

using namespace service::routing;

namespace {

// ROUTING_WORLDS: how many, for a long look.
std::uint64_t worlds(std::uint64_t usual) {
  const char* asked = std::getenv("ROUTING_WORLDS");
  return asked == nullptr ? usual : std::strtoull(asked, nullptr, 10);
}

}  // namespace

TEST_CASE("the times of a round are those that trying every minute finds") {
  std::size_t possible = 0;
  std::size_t impossible = 0;
  for (std::uint64_t seed = 0; seed < std::min<std::uint64_t>(worlds(150), 2000); ++seed) {
    const Problem problem = test::random_problem(seed, {4, 1});
    const Shift& shift = problem.shifts.front();
    for (unsigned set = 1; set < 1U << problem.jobs.size(); ++set) {
      Route route;
      for (unsigned j = 0; j < problem.jobs.size(); ++j) {
        if ((set >> j & 1U) != 0) route.push_back(static_cast<int>(j));
      }
      do {
        const auto tried = test::back_and_leaving(problem, shift, route);
        const auto times = times_of(problem, shift, route);
        CAPTURE(seed);
        REQUIRE(tried.has_value() == times.has_value());
        ++(tried ? possible : impossible);
        if (!tried) continue;
        CHECK(times->back == tried->first);
        CHECK(times->leaves == tried->second);
      } while (std::next_permutation(route.begin(), route.end()));
    }
  }
  CHECK(possible > 100);
  CHECK(impossible > 100);
}

TEST_CASE("no plan is better than the one found, where it is proven, and none is below the bound") {
  std::uint64_t proven = 0;
  std::uint64_t best = 0;
  const std::uint64_t count = worlds(1500);
  for (std::uint64_t seed = 0; seed < count; ++seed) {
    const Problem problem = test::random_problem(seed, {7, 2});
    const Solution solution = solve(problem);
    const Value optimum = test::best_value(
        problem, [&](const Shift& shift, const Route& route) { return times_of(problem, shift, route).has_value(); });
    CAPTURE(seed);
    REQUIRE(solution.value == value_of(problem, solution.plan));
    for (std::size_t s = 0; s < solution.plan.size(); ++s) {
      if (!solution.plan[s].empty()) REQUIRE(times_of(problem, problem.shifts[s], solution.plan[s]).has_value());
    }
    REQUIRE(solution.bound <= optimum);
    REQUIRE(solution.value >= optimum);
    if (solution.proven) REQUIRE(solution.value == optimum);
    REQUIRE(solution.proven == (solution.bound == solution.value));
    proven += solution.proven;
    best += solution.value == optimum;
  }
  MESSAGE("of ", count, " worlds ", proven, " proven, ", best, " solved");
  CHECK(best >= count - count / 100);
  CHECK(proven >= count - count / 50);
}

TEST_CASE("a job from which there is no way home in time but over another is done on the way") {
  Problem problem;
  // Place 0 is home; from 1 it is far, but not by way of 2.
  problem.profiles.push_back({3, {{}, {1, 1}, {60, 60}, {60, 60}, {}, {1, 1}, {1, 1}, {60, 60}, {}}, {{}, {}, {}}});
  problem.jobs = {{1, 5, 1000}, {2, 5, 1000}};
  const Option any{true, 0, {{0, 100}}};
  for (const std::size_t shifts : {1U, 2U}) {
    problem.shifts.assign(shifts, Shift{.closes = 30, .options = {any, any}});
    if (shifts == 2) problem.shifts.back().closes = 29;
    const Solution solution = solve(problem);
    CHECK(solution.bound <= Value{0, 0, 3});
    CHECK(solution.value == Value{0, 0, 3});
    CHECK(solution.proven);
  }
}

TEST_CASE("what is given up early proves nothing that is not so") {
  std::size_t proven = 0;
  std::size_t given_up = 0;
  for (std::uint64_t seed = 0; seed < 40; ++seed) {
    const Problem problem = test::random_problem(1000 + seed, {16, 4});
    const Solution best = solve(problem);
    if (!best.proven) continue;
    ++proven;
    const auto check = [&](const Budget& budget) {
      const Solution some = solve(problem, {}, budget);
      CHECK(some.bound <= best.value);
      CHECK(some.value >= best.value);
      if (some.proven) CHECK(some.value == best.value);
      given_up += !some.proven;
    };
    CAPTURE(seed);
    for (const std::size_t few : {1U, 3U, 10U, 40U, 200U, 1000U}) {
      CAPTURE(few);
      check({few, 1 + few / 4, 5 * few, 5 * few, few});
    }
    // The choice alone: so that it is given up at every kind of step.
    for (std::size_t steps = 1; steps < 30; ++steps) {
      CAPTURE(steps);
      check({10, 400, 400'000, 200'000, steps});
    }
  }
  CHECK(proven > 30);
  CHECK(given_up > 20);
}
