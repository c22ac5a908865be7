#include "usage/spread.h"

#include <algorithm>
#include <cmath>

namespace service::usage {

PastErrors past_errors(const std::vector<Window>& windows, const RateMixture& rate) {
  PastErrors errors;
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
      errors[s].scatter.squares += share * (use - mean) * (use - mean);
      errors[s].scatter.means += share * mean;
      errors[s].scatter.windows += share;
      errors[s].mean_squares += share * mean * mean;
      next = from + std::chrono::days{spread_days[s] / 2};
    }
  }
  return errors;
}

Excess excess(const Errors& errors, double lump) {
  if (errors.scatter.windows <= 0 || errors.mean_squares <= 0) return {};
  return {(errors.scatter.squares - lump * errors.scatter.means) / errors.mean_squares, errors.scatter.windows};
}

double doubt_at(const Spread& spread, double days) {
  const auto [some, year] = spread.doubts;
  const double part = (days - spread_days[1]) / (spread_days[2] - spread_days[1]);
  return some + (year - some) * std::clamp(part, 0.0, 1.0);
}

}  // namespace service::usage
