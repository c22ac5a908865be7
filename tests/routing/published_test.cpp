// Published instances and their optima, through the same solver.
#include <doctest/doctest.h>

#include <numeric>

#include "routing/instances.h"
#include "routing/print.h"
#include "routing/solve.h"
#include "routing/timing.h"

using namespace service::routing;

namespace {

void check_proven(const Problem& problem, Pence optimum) {
  const Solution solution = solve(problem);
  CHECK(solution.value.safety == 0);
  CHECK(solution.value.money == optimum);
  CHECK(solution.bound.money == optimum);
  CHECK(solution.proven);
}

Pence in_order(const std::vector<std::vector<int>>& distances) {
  const Problem problem = test::round_trip(distances);
  Route route(problem.jobs.size());
  std::iota(route.begin(), route.end(), 0);
  return travel_of(problem, problem.shifts.front(), route);
}

}  // namespace

TEST_CASE("time windows: R101 and C101, 25 customers, distances cut to 0.1") {
  // Solomon's instances of 1987; the data as the first 25 of his files hold them (seen in a public copy), the optima of
  // the literature from memory, and each once computed by another program that listed all rounds.
  check_proven(test::with_windows("r101-25", 25, 200), 6171);
  check_proven(test::with_windows("c101-25", 25, 200), 1913);
}

TEST_CASE("the distance function alone: places in their order") {
  // Computed by another program for these files of TSPLIB; the distance function is that of its maintainer's questions
  // and answers (seen).
  CHECK(in_order(test::geographic("burma14", 14)) == 4562);
  CHECK(in_order(test::geographic("ulysses22", 16)) == 9665);
  CHECK(in_order(test::geographic("ulysses22", 22)) == 12198);
  CHECK(in_order(test::lower_triangle("gr17")) == 4722);
}

TEST_CASE("travelling salesmen: burma14, ulysses16 and gr17, proven over all sets") {
  // Optima as TSPLIB publishes them (seen in a public copy of its list), and computed by dynamic programming elsewhere.
  check_proven(test::round_trip(test::geographic("burma14", 14)), 3323);
  check_proven(test::round_trip(test::geographic("ulysses22", 16)), 6859);
  check_proven(test::round_trip(test::lower_triangle("gr17")), 2085);
}

TEST_CASE("ulysses22 is found, though its round is too long to be proven") {
  const Problem problem = test::round_trip(test::geographic("ulysses22", 22));
  std::size_t asked = 0;
  Effort effort;
  effort.stop = [&] { return ++asked > 90; };
  const Solution solution = solve(problem, effort);
  CHECK(solution.value == Value{0, 0, 7013});  // TSPLIB, seen
  CHECK(solution.bound <= solution.value);
}

TEST_CASE("loads: eil7 and eil13") {
  // TSPLIB's data; optima computed by another exact program.
  check_proven(test::with_loads(test::by_column("eil7"), {1, 1, 1, 1, 1, 1}, 3, 2), 114);
  check_proven(test::with_loads(test::by_column("eil13"),
                                {1200, 1700, 1500, 1400, 1700, 1400, 1200, 1900, 1800, 1600, 1700, 1100}, 6000, 4),
               290);
}
