// Mean numbers of renewals, by simulation of services to come, against closed forms.
#include <doctest/doctest.h>

#include <cmath>

#include "service/outlook.h"
#include "support/world.h"

using namespace service;
using test::day;

namespace {

// Use comes in jobs of one hour, `rate` a day on average: a Poisson process, so that the time in which so many whole
// hours are used is Erlang distributed.
class Jobs : public UsageAhead {
 public:
  Jobs(Day from, double rate) : from_(from), rate_(rate) {}
  std::optional<Amount> on(Day, Quantile) const override { return Amount{}; }
  std::optional<Day> reaches(Amount, Quantile) const override { return std::nullopt; }
  std::unique_ptr<const ReachOdds> odds(Amount, std::optional<Amount>) const override { return nullptr; }
  std::unique_ptr<const UsagePath> draw(std::mt19937_64& random, double, int days) const override {
    std::poisson_distribution<std::int64_t> jobs(rate_);
    std::vector<Amount> usage{Amount{}};
    for (int i = 0; i < days; ++i) usage.push_back(usage.back() + Amount::units(jobs(random)));
    return std::make_unique<UsagePath>(from_, 1, std::move(usage));
  }

 private:
  Day from_;
  double rate_;
};

struct Renewals {
  double mean = 0;
  double error = 0;
};

Renewals renewals(int hours, double rate, int days) {
  const test::World world("  oil: {do: Oil, every: {hours: " + std::to_string(hours) + "}}\n",
                          "in-service: {on: 2026-01-01, at: 0}");
  const auto snapshot = world.snapshot("2026-01-01");
  const Outlook outlook(snapshot, *snapshot.fleet().machine("m"),
                        [&](const AheadQuestion& question) { return std::make_unique<Jobs>(question.as_of, rate); });
  constexpr int ways = 4'000;
  double sum = 0;
  double squares = 0;
  for (int way = 0; way < ways; ++way) {
    const auto count = static_cast<double>(
        outlook.draw(static_cast<std::uint64_t>(way), snapshot.as_of() + std::chrono::days{days}).size());
    sum += count;
    squares += count * count;
  }
  const double mean = sum / ways;
  return {mean, std::sqrt((squares / ways - mean * mean) / ways)};
}

}  // namespace

TEST_CASE("exponential lives: the mean number of renewals is rate times time") {
  // Every job is the end of an interval of one hour, at most one service a day.
  constexpr double rate = 0.02;
  const Renewals got = renewals(1, rate, 500);
  const double a_day = 1 - std::exp(-rate);
  CHECK(std::abs(got.mean - 500 * a_day) < 4 * got.error);
  CHECK(got.error < 0.06);
}

TEST_CASE("Erlang lives of two stages: rate t / 2 - 1/4 + exp(-2 rate t) / 4") {
  // D. R. Cox, Renewal Theory (1962), for gamma lives of shape 2; from memory. The quarter is what a constant rate gets
  // wrong, and is far outside of the simulation's error. Two jobs fall on a day once in 5,000 days.
  constexpr double rate = 0.02;
  for (const int days : {100, 400, 800}) {
    CAPTURE(days);
    const double t = rate * days;
    const double expected = t / 2 - 0.25 + 0.25 * std::exp(-2 * t);
    const Renewals got = renewals(2, rate, days);
    CHECK(std::abs(got.mean - expected) < 4 * got.error + 0.01 * expected);
    CHECK(got.error < 0.06);
    CHECK(4 * got.error + 0.01 * expected < 0.25);
  }
}

TEST_CASE("Erlang lives of three stages against Poisson sums") {
  // P(at least n renewals by t) = P(Poisson(rate t) >= 3 n): the mean is the sum of those.
  constexpr double rate = 0.02;
  constexpr double t = rate * 600;
  double expected = 0;
  for (int n = 1; n < 30; ++n) {
    double below = 0;
    double term = std::exp(-t);
    for (int k = 0; k < 3 * n; ++k) {
      below += term;
      term *= t / (k + 1);
    }
    expected += 1 - below;
  }
  CHECK(expected == doctest::Approx(t / 3 - 1.0 / 3).epsilon(0.01));  // the asymptote (3 - 1) / (2 x 3)
  const Renewals got = renewals(3, rate, 600);
  CHECK(std::abs(got.mean - expected) < 4 * got.error + 0.01 * expected);
}
