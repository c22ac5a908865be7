// The mean number of services to come, by simulation, where use comes in whole hours at random.
#pragma once

#include <boost/random/poisson_distribution.hpp>
#include <cmath>
#include <memory>
#include <random>
#include <string>
#include <vector>

#include "service/outlook.h"
#include "support/world.h"

namespace test {

using service::Amount;
using service::Day;

// Use comes in jobs of one hour, `rate` a day on average: a Poisson process, so that the time in which so many whole
// hours are used is Erlang distributed, a stage an hour.
class Jobs : public service::UsageAhead {
 public:
  Jobs(Day from, double rate) : from_(from), rate_(rate) {}
  std::optional<Amount> on(Day, service::Quantile) const override { return Amount{}; }
  std::optional<Day> reaches(Amount, service::Quantile) const override { return std::nullopt; }
  std::unique_ptr<const service::ReachOdds> odds(Amount, std::optional<Amount>) const override { return nullptr; }
  std::unique_ptr<const service::UsagePath> draw(service::Draws& random, service::Probability,
                                                 int days) const override {
    boost::random::poisson_distribution<std::int64_t> jobs(rate_);
    std::vector<Amount> usage{Amount{}};
    for (int i = 0; i < days; ++i) usage.push_back(usage.back() + Amount::units(jobs(random)));
    return std::make_unique<service::UsagePath>(from_, 1, std::move(usage));
  }

 private:
  Day from_;
  double rate_;
};

struct Renewals {
  double mean = 0;
  double error = 0;
};

// The mean number of services every so many hours within so many days, and its standard error.
inline Renewals renewals(int hours, double rate, int days) {
  const World world("  oil: {do: Oil, every: {hours: " + std::to_string(hours) + "}}\n",
                    "in-service: {on: 2026-01-01, at: 0}");
  const auto snapshot = world.snapshot("2026-01-01");
  const service::Outlook outlook(snapshot, *snapshot.fleet().machine("m"), [&](const service::AheadQuestion& question) {
    return std::make_unique<Jobs>(question.as_of, rate);
  });
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

}  // namespace test
