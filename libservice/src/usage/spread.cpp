#include "usage/spread.h"

#include <algorithm>
#include <cmath>

namespace service::usage {

Scatters past_errors(const std::vector<Window>& windows, const Levels& levels) {
  Scatters errors;
  if (windows.empty()) return errors;
  const Day first = windows.front().from;
  const double years = days_between(first, windows.back().to) / year_days;
  const double learning = std::max(0.4, std::min(1.5, 0.33 * years)) * year_days;
  for (std::size_t s = 0; s < spread_days.size(); ++s) {
    const double length = spread_days[s];
    std::optional<Day> next;
    for (std::size_t j = 0; j < windows.size(); ++j) {
      const Day from = windows[j].from;
      if (days_between(first, from) < learning || (next && from < *next)) continue;
      double use = 0;
      double worth = 0;
      int days = 0;
      for (std::size_t i = j; i < windows.size() && days < 0.8 * length; ++i) {
        use += windows[i].use;
        worth += windows[i].worth;
        days = days_between(from, windows[i].to);
      }
      if (days < 0.8 * length) break;
      if (days > 1.8 * length) continue;
      const double share = days / length;
      const double mean = levels.before[j] * worth;
      errors[s].squares += share * (use - mean) * (use - mean);
      errors[s].means += share * mean;
      next = from + std::chrono::days{spread_days[s] / 2};
    }
  }
  return errors;
}

Spreads spread_of_kind(const Scatters& all) {
  Spreads spreads{};
  for (std::size_t s = 0; s < spreads.size(); ++s) spreads[s] = clump_of_kind(all[s]);
  return spreads;
}

Spreads spread_of(const Scatters& own, const Spreads& kind, const SpreadQuestion& question,
                  const ForecastConstants& use) {
  Spreads spreads{};
  for (std::size_t s = 0; s < spreads.size(); ++s) {
    spreads[s] = std::max(use.least_spread, (own[s].squares + constants.clump_weight * kind[s]) /
                                                (own[s].means + constants.clump_weight));
  }
  const double level = std::max(question.level, 1e-9);
  const double irregular = std::min(1.0, use.regular_factor * std::sqrt(spreads[2] / (year_days * level)));
  const double little_known = 1 + use.widening * irregular / (0.5 + question.known_years);
  const double few_clumps = std::min(1.5, 1 + 5 / std::sqrt(1 + question.used / spreads[1]));
  for (double& spread : spreads) spread *= little_known * few_clumps;
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
