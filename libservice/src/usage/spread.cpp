#include "usage/spread.h"

#include <algorithm>
#include <cmath>

namespace service::usage {

Scatters past_errors(const std::vector<Window>& windows, const RateMixture& rate) {
  Scatters errors;
  if (windows.empty()) return errors;
  const Day first = windows.front().from;
  const double years = days_between(first, windows.back().to) / year_days;
  const double learning = std::max(constants.least_learning_years,
                                   std::min(constants.most_learning_years, constants.learning_share * years)) *
                          year_days;
  for (std::size_t s = 0; s < spread_days.size(); ++s) {
    const double length = spread_days[s];
    std::optional<Day> next;
    for (std::size_t j = 0; j < windows.size(); ++j) {
      const Day from = windows[j].from;
      if (days_between(first, from) < learning || (next && from < *next)) continue;
      double use = 0;
      double exposure = 0;
      int days = 0;
      for (std::size_t i = j; i < windows.size() && days < constants.shortest_length * length; ++i) {
        use += windows[i].use;
        exposure += windows[i].exposure;
        days = days_between(from, windows[i].to);
      }
      if (days < constants.shortest_length * length) break;
      if (days > constants.longest_length * length) continue;
      const double share = days / length;
      const double mean = rate.predicted[j] * exposure;
      errors[s].squares += share * (use - mean) * (use - mean);
      errors[s].means += share * mean;
      next = from + std::chrono::days{spread_days[s] / 2};
    }
  }
  return errors;
}

Spreads pooled_spread(const Scatters& all) {
  Spreads spreads{};
  for (std::size_t s = 0; s < spreads.size(); ++s) spreads[s] = pooled_dispersion(all[s]);
  return spreads;
}

Spreads spread_of(const Scatters& own, const Spreads& pooled, const SpreadQuestion& question,
                  const ForecastConstants& use) {
  Spreads spreads{};
  for (std::size_t s = 0; s < spreads.size(); ++s) {
    spreads[s] = std::max(use.least_spread, (own[s].squares + constants.dispersion_weight * pooled[s]) /
                                                (own[s].means + constants.dispersion_weight));
  }
  const double rate = std::max(question.rate, 1e-9);
  const double irregular = std::min(1.0, use.regular_factor * std::sqrt(spreads[2] / (year_days * rate)));
  const double little_known = 1 + use.widening * irregular / (use.widening_years + question.known_years);
  const double few_lumps = std::min(use.most_few_lumps, 1 + use.few_lumps / std::sqrt(1 + question.used / spreads[1]));
  for (double& spread : spreads) spread *= little_known * few_lumps;
  return spreads;
}

double spread_at(const Spreads& spreads, double days) {
  if (days <= spread_days.front()) return spreads.front();
  for (std::size_t s = 1; s < spreads.size(); ++s) {
    if (days > spread_days[s]) continue;
    const double part =
        std::log(days / spread_days[s - 1]) / std::log(static_cast<double>(spread_days[s]) / spread_days[s - 1]);
    return spreads[s - 1] * std::pow(spreads[s] / spreads[s - 1], part);
  }
  return spreads.back();
}

}  // namespace service::usage
