// One future of a meter, drawn by its odds.
#include <algorithm>
#include <boost/random/gamma_distribution.hpp>
#include <boost/random/uniform_real_distribution.hpp>
#include <cmath>

#include "usage/constants.h"
#include "usage/learnt_ahead.h"

namespace service::usage {

std::unique_ptr<const UsagePath> LearntAhead::draw(std::mt19937_64& random, Probability season, int days) const {
  constexpr int step = constants.path_step_days;
  boost::random::uniform_real_distribution<double> even(0, 1);
  const auto pick = [](const auto& choices, double where) -> const auto& {
    for (const auto& choice : choices) {
      if (where < choice.weight) return choice;
      where -= choice.weight;
    }
    return choices[0];
  };
  const int shift = pick(shifts_, season.value).days;
  const int pause = pick(pauses_, even(random)).days;
  const RateComponent& component = pick(learnt_.rate.components, even(random));
  // What a year's error has beyond a month's is the rate's, not the lumps'.
  const double doubt = rate_variance(component) + std::max(0.0, learnt_.spreads[2] - learnt_.spreads[0]) /
                                                      (year_days * std::max(component.mean(), 1e-9));
  const double times = boost::random::gamma_distribution<double>(1 / doubt, doubt)(random);
  // Where long gaps stray less than short ones, lumps make up for each other; the middle serves both.
  const double scale = std::min(learnt_.spreads[0], std::sqrt(learnt_.spreads[0] * learnt_.spreads[2]));
  double use = 0;
  double before = 0;
  std::vector<Amount> usage;
  for (int day = 0;; day += step) {
    const double reached = mean_days(as_of_ + std::chrono::days{day}, shift, pause);
    const double shape = component.mean() * times * (reached - before) / scale;
    if (shape > 1e-9) use += boost::random::gamma_distribution<double>(shape, scale)(random);
    usage.push_back(amount(use));
    before = reached;
    if (day >= days) break;
  }
  return std::make_unique<UsagePath>(as_of_, step, std::move(usage));
}

}  // namespace service::usage
