// One future of a meter, drawn by its odds.
#include <algorithm>
#include <boost/random/normal_distribution.hpp>
#include <cmath>

#include "usage/constants.h"
#include "usage/gamma_draw.h"
#include "usage/learnt_ahead.h"

namespace service::usage {

// Mean days of use from the last reading to each step of a path: the same on all paths of one season.
const std::vector<double>& LearntAhead::days_by_step(int shift, int days) const {
  std::vector<double>& by_step = days_by_step_[shift];
  const auto steps = static_cast<std::size_t>(days / constants.path_step_days) + 2;
  while (by_step.size() < steps) {
    const int day = static_cast<int>(by_step.size()) * constants.path_step_days;
    by_step.push_back(mean_days(as_of_ + std::chrono::days{day}, shift, 0));
  }
  return by_step;
}

std::unique_ptr<const UsagePath> LearntAhead::draw(Draws& random, Probability season, int days) const {
  constexpr int step = constants.path_step_days;
  const auto pick = [](const auto& choices, double where) -> const auto& {
    for (const auto& choice : choices) {
      if (where < choice.weight) return choice;
      where -= choice.weight;
    }
    return choices[0];
  };
  const int shift = pick(shifts(), season.value).days;
  const RateComponent& component = pick(components_, draw_even(random));
  auto& season_doubts = season_doubts_[days];
  if (!season_doubts) season_doubts = season_doubt(as_of_, as_of_ + std::chrono::days{days});
  const double doubt = rate_variance(component) + learnt_.spread.doubts[1] + *season_doubts;
  const double times = std::exp(boost::random::normal_distribution<double>(0, std::sqrt(std::log1p(doubt)))(random));
  const double scale = learnt_.spread.lump;
  const auto standstill = [&] {
    const auto which = static_cast<std::size_t>(draw_even(random) * static_cast<double>(constants.idle_days.size()));
    return std::chrono::days{constants.idle_days[std::min(which, constants.idle_days.size() - 1)]};
  };
  Day runs_from = last_.day;
  if (!idle_from_ && draw_even(random) < learnt_.rate.idle) runs_from += standstill();
  const double stops = idle_from_ || quiet().rests ? 0 : 1 - std::exp(-learnt_.stop_rate * step);
  double use = 0;
  Day before = last_.day;
  double exposed = 0;  // by then, from the last reading on
  const std::vector<double>& days_by = days_by_step(shift, days);
  std::vector<Amount> usage;
  usage.reserve(days_by.size());
  for (int day = 0;; day += step) {
    const Day now = as_of_ + std::chrono::days{day};
    const Day from = std::max(before, runs_from);
    const double by_now = days_by[usage.size()];
    const double exposure = from < now ? by_now - (from == before ? exposed : mean_days(from, shift, 0)) : 0;
    exposed = by_now;
    const double shape = component.mean() * times * exposure / scale;
    if (shape > 1e-9) use += draw_gamma(random, shape, scale);
    usage.push_back(amount(use));
    if (day >= days) break;
    if (stops > 0 && now >= runs_from && draw_even(random) < stops) runs_from = now + standstill();
    before = now;
  }
  return std::make_unique<UsagePath>(as_of_, step, std::move(usage));
}

}  // namespace service::usage
