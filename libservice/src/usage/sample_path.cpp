// One future of a meter, drawn by its odds.
#include <algorithm>
#include <boost/random/normal_distribution.hpp>
#include <boost/random/uniform_real_distribution.hpp>
#include <cmath>

#include "usage/constants.h"
#include "usage/gamma_draw.h"
#include "usage/learnt_ahead.h"

namespace service::usage {

std::unique_ptr<const UsagePath> LearntAhead::draw(Draws& random, Probability season, int days) const {
  constexpr int step = constants.path_step_days;
  boost::random::uniform_real_distribution<double> even(0, 1);
  const auto pick = [](const auto& choices, double where) -> const auto& {
    for (const auto& choice : choices) {
      if (where < choice.weight) return choice;
      where -= choice.weight;
    }
    return choices[0];
  };
  const int shift = pick(shifts(), season.value).days;
  const RateComponent& component = pick(components_, even(random));
  const double doubt =
      rate_variance(component) + learnt_.spread.doubts[1] + season_doubt(as_of_, as_of_ + std::chrono::days{days});
  const double times = std::exp(boost::random::normal_distribution<double>(0, std::sqrt(std::log1p(doubt)))(random));
  const double scale = learnt_.spread.lump;
  const auto standstill = [&] {
    const auto which = static_cast<std::size_t>(even(random) * static_cast<double>(constants.idle_days.size()));
    return std::chrono::days{constants.idle_days[std::min(which, constants.idle_days.size() - 1)]};
  };
  Day runs_from = last_.day;
  if (!idle_from_ && even(random) < learnt_.rate.idle) runs_from += standstill();
  const double stops = idle_from_ || quiet().rests ? 0 : 1 - std::exp(-learnt_.stop_rate * step);
  double use = 0;
  Day before = last_.day;
  double exposed = 0;  // by then, from the last reading on
  std::vector<Amount> usage;
  usage.reserve(static_cast<std::size_t>(days / step) + 2);
  for (int day = 0;; day += step) {
    const Day now = as_of_ + std::chrono::days{day};
    const Day from = std::max(before, runs_from);
    const double by_now = mean_days(now, shift, 0);
    const double exposure = from < now ? by_now - (from == before ? exposed : mean_days(from, shift, 0)) : 0;
    exposed = by_now;
    const double shape = component.mean() * times * exposure / scale;
    if (shape > 1e-9) use += draw_gamma(random, shape, scale);
    usage.push_back(amount(use));
    if (day >= days) break;
    if (stops > 0 && now >= runs_from && even(random) < stops) runs_from = now + standstill();
    before = now;
  }
  return std::make_unique<UsagePath>(as_of_, step, std::move(usage));
}

}  // namespace service::usage
