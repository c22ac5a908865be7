// What is chosen of the rounds that a program knows, also of those that joined since it was solved.
#include "routing/master.h"

#include <doctest/doctest.h>

#include "routing/every_plan.h"
#include "routing/triples.h"

using namespace service::routing;

TEST_CASE("a round that joins after the program was solved is not chosen yet") {
  const Problem problem = test::random_problem(5000, {5, 1});
  const std::size_t jobs = problem.jobs.size();
  Master master(jobs, kinds_of(problem, weights_of(problem)));
  CHECK(master.chosen().empty());
  master.add({0, {{0}, -10, 0}});
  master.solve();
  CHECK(master.chosen().front() == 1);
  for (int job = 1; job < static_cast<int>(jobs); ++job) master.add({0, {{0, job}, -20 - job, 0}});
  REQUIRE(master.chosen().size() == master.columns().size());
  CHECK(master.chosen().back() == 0);
  CHECK(broken_triples(master, jobs, 10).empty());
  master.solve();
  CHECK(master.chosen().front() == 0);
  CHECK(master.chosen().back() == 1);
}
