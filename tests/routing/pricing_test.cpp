// The least reduced cost of a round, beside that of every round, and where the looking is cut short.
#include "routing/pricing.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <numeric>

#include "routing/dice.h"
#include "routing/every_plan.h"
#include "routing/timing.h"
#include "routing/weeks.h"

using namespace service::routing;

namespace {

constexpr std::size_t slots = 240;

Prices some_prices(const Problem& problem, std::size_t kinds, std::uint64_t seed) {
  Dice dice(seed);
  Prices prices;
  for (const Job& job : problem.jobs) {
    prices.jobs.push_back(-mills * static_cast<Mills>(dice.below(static_cast<std::size_t>(job.skip) + 1)));
  }
  prices.kinds.assign(kinds, -mills * static_cast<Mills>(dice.below(20)));
  return prices;
}

Memory all_remembered(std::size_t jobs) {
  std::vector<int> all(jobs);
  std::iota(all.begin(), all.end(), 0);
  return Memory(jobs, all);
}

// By every order of every choice of jobs; 0 where there is nothing below.
Mills least_of_all(const Problem& problem, const Weights& weights, const ShiftKind& kind, const Prices& prices) {
  Mills least = 0;
  for (unsigned set = 1; set < 1U << problem.jobs.size(); ++set) {
    Route route;
    Pence cost = 0;
    Mills worth = prices.kinds.front();
    for (std::size_t j = 0; j < problem.jobs.size(); ++j) {
      if ((set >> j & 1U) == 0) continue;
      route.push_back(static_cast<int>(j));
      cost += kind.shift->options[j].cost - weights.of_skipping(problem.jobs[j]);
      worth += prices.jobs[j];
    }
    do {
      const Mills reduced = mills * (cost + travel_of(problem, *kind.shift, route)) - worth;
      if (reduced < least && test::back_and_leaving(problem, *kind.shift, route)) least = reduced;
    } while (std::next_permutation(route.begin(), route.end()));
  }
  return least;
}

Priced priced(const Problem& problem, const ShiftKind& kind, const Prices& prices, const Memory& memory,
              std::size_t most_labels, const std::function<bool()>& stop = {}) {
  return price(problem, kind, 0, prices, WayHome(kind, prices, slots), memory, {0, most_labels, 30, stop});
}

}  // namespace

TEST_CASE("the least reduced cost is that of a round that can be done") {
  std::size_t noon_and_duty = 0;
  std::size_t below = 0;
  for (std::uint64_t seed = 0; seed < 400; ++seed) {
    CAPTURE(seed);
    const Problem problem = test::random_problem(5000 + seed, {5, 1});
    const Weights weights = weights_of(problem);
    const ShiftKind kind = kinds_of(problem, weights).front();
    const Prices prices = some_prices(problem, 1, seed);
    const Mills truth = least_of_all(problem, weights, kind, prices);
    const Priced found = priced(problem, kind, prices, all_remembered(problem.jobs.size()), 0);
    REQUIRE(found.proven);
    if (kind.duty_exact && !(kind.duty_counts && kind.meal_counts)) {
      CHECK(found.least == truth);
    } else {
      CHECK(found.least <= truth);
    }
    noon_and_duty += kind.duty_exact && !kind.leavings.empty();
    below += truth < 0;
  }
  CHECK(noon_and_duty > 20);
  CHECK(below > 200);
}

TEST_CASE("what is cut short proves less, never more, and more than the way home alone") {
  std::size_t more_than_way_home = 0;
  for (std::uint64_t seed = 0; seed < 6; ++seed) {
    CAPTURE(seed);
    const Problem problem = test::invented_week({1, 1, 11, true}, seed);
    const Weights weights = weights_of(problem);
    const ShiftKind kind = kinds_of(problem, weights).front();
    const Prices prices = some_prices(problem, 1, seed);
    const Memory memory = all_remembered(problem.jobs.size());
    const Mills whole = priced(problem, kind, prices, memory, 0).least;
    const Mills way_home = WayHome(kind, prices, slots).least() - prices.kinds.front();
    Mills before = way_home;
    for (const std::size_t few : {1U, 30U, 300U, 1000U, 3000U}) {
      CAPTURE(few);
      const Priced some = priced(problem, kind, prices, memory, few);
      CHECK(some.least <= whole);
      CHECK(some.least >= before);
      before = some.least;
      more_than_way_home += !some.proven && some.least > way_home;
    }
  }
  CHECK(more_than_way_home > 6);
}

TEST_CASE("whoever wants to stop is asked every few labels") {
  const Problem problem = test::invented_week({1, 1, 60, true}, 1);
  const ShiftKind kind = kinds_of(problem, weights_of(problem)).front();
  std::size_t asked = 0;
  const auto stop = [&] { return ++asked == 100; };
  const Priced some =
      priced(problem, kind, some_prices(problem, 1, 1), all_remembered(problem.jobs.size()), 30'000, stop);
  CHECK(!some.proven);
  CHECK(asked == 100);  // before there were 30,000
}
