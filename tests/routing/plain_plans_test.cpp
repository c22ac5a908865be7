// Plans beside those that somebody makes without reckoning: always the nearest next, or what is due first, first.
#include <doctest/doctest.h>

#include <algorithm>
#include <numeric>

#include "routing/print.h"
#include "routing/solve.h"
#include "routing/timing.h"
#include "routing/weeks.h"

using namespace service::routing;

namespace {

// Leaving then and starting each stay as soon as it can: when it is back, or a minute that is too late.
Minute back(const Problem& problem, const Shift& shift, const Route& route, Minute leaves) {
  const Minute too_late = shift.closes + 1;
  const Profile& profile = problem.profiles[static_cast<std::size_t>(shift.profile)];
  int place = shift.start;
  Minute at = leaves;
  Minute idle = 0;
  for (const int number : route) {
    const Job& job = problem.jobs[static_cast<std::size_t>(number)];
    const Option& option = shift.options[static_cast<std::size_t>(number)];
    if (!option.possible) return too_late;
    at += profile.leg(place, job.place).minutes;
    const Minute stay =
        job.work + (job.place == place ? 0 : profile.set_ups[static_cast<std::size_t>(job.place)].minutes);
    const auto span = std::find_if(option.spans.begin(), option.spans.end(),
                                   [&](const Span& s) { return std::max(at, s.from) + stay <= s.to; });
    if (span == option.spans.end()) return too_late;
    idle += std::max(0, span->from - at);
    at = std::max(at, span->from) + stay;
    place = job.place;
  }
  return at + profile.leg(place, shift.end).minutes + std::max(0, shift.meal - idle);
}

bool can_be_done(const Problem& problem, const Shift& shift, const Route& route) {
  for (Minute leaves = shift.opens; leaves < shift.closes; ++leaves) {
    const Minute is_back = back(problem, shift, route, leaves);
    if (is_back <= shift.closes && is_back - leaves <= shift.duty) return true;
  }
  return false;
}

bool put_behind(const Problem& problem, const Shift& shift, Route& route, int job) {
  route.push_back(job);
  if (can_be_done(problem, shift, route)) return true;
  route.pop_back();
  return false;
}

Plan nearest_next(const Problem& problem) {
  Plan plan;
  std::vector<int> left(problem.jobs.size());
  std::iota(left.begin(), left.end(), 0);
  for (const Shift& shift : problem.shifts) {
    Route& route = plan.emplace_back();
    const Profile& profile = problem.profiles[static_cast<std::size_t>(shift.profile)];
    for (bool went = true; went;) {
      const auto place = [&](int job) { return problem.jobs[static_cast<std::size_t>(job)].place; };
      const int here = route.empty() ? shift.start : place(route.back());
      std::stable_sort(left.begin(), left.end(), [&](int a, int b) {
        return profile.leg(here, place(a)).minutes < profile.leg(here, place(b)).minutes;
      });
      const auto next =
          std::find_if(left.begin(), left.end(), [&](int job) { return put_behind(problem, shift, route, job); });
      went = next != left.end();
      if (went) left.erase(next);
    }
  }
  return plan;
}

// The last minute of the week at which a job could be ended.
Minute due(const Problem& problem, int job) {
  Minute last = 0;
  for (std::size_t s = 0; s < problem.shifts.size(); ++s) {
    const Option& option = problem.shifts[s].options[static_cast<std::size_t>(job)];
    if (option.possible) last = std::max(last, static_cast<Minute>(s) * 24 * 60 + option.spans.back().to);
  }
  return last;
}

Plan due_first(const Problem& problem) {
  Plan plan(problem.shifts.size());
  std::vector<int> jobs(problem.jobs.size());
  std::iota(jobs.begin(), jobs.end(), 0);
  std::stable_sort(jobs.begin(), jobs.end(), [&](int a, int b) {
    const Rank rank_a = problem.jobs[static_cast<std::size_t>(a)].rank;
    const Rank rank_b = problem.jobs[static_cast<std::size_t>(b)].rank;
    return rank_a != rank_b ? rank_a > rank_b : due(problem, a) < due(problem, b);
  });
  for (const int job : jobs) {
    for (std::size_t s = 0; s < plan.size(); ++s) {
      if (put_behind(problem, problem.shifts[s], plan[s], job)) break;
    }
  }
  return plan;
}

}  // namespace

TEST_CASE("no plan is worse than going to the nearest next, or to what is due first") {
  std::size_t better = 0;
  constexpr std::size_t weeks = 12;
  for (std::uint64_t seed = 1; seed <= weeks; ++seed) {
    CAPTURE(seed);
    const test::WeekSize size{1 + static_cast<int>(seed % 2), 3, 12 + static_cast<int>(seed), seed % 4 == 3};
    const Problem problem = test::invented_week(size, seed);
    // Little effort: this holds for the search alone, too.
    const Solution solution = solve(problem, {}, {2000, 30, 2000, 2000, 10'000});
    for (const Plan& plain : {nearest_next(problem), due_first(problem)}) {
      for (std::size_t s = 0; s < plain.size(); ++s) {
        if (!plain[s].empty()) REQUIRE(times_of(problem, problem.shifts[s], plain[s]).has_value());
      }
      const Value value = value_of(problem, plain);
      CHECK(solution.value <= value);
      CHECK(solution.bound <= value);
      better += solution.value < value;
    }
  }
  CHECK(better >= 2 * weeks - 2);
}

TEST_CASE("more effort begins with the usual one, and finds and proves no less") {
  for (std::uint64_t seed = 1; seed <= 6; ++seed) {
    CAPTURE(seed);
    const Problem problem = test::invented_week({2, 3, 16 + static_cast<int>(seed), seed % 2 == 1}, seed);
    const Budget little{300, 3, 200, 200, 1000};
    Effort effort;
    const Solution once = solve(problem, effort, little);
    effort.times = 3;
    const Solution more = solve(problem, effort, little);
    CHECK(more.value <= once.value);
    CHECK(more.bound >= once.bound);
  }
}
