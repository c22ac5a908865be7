// When usage passes a level: a mixture of gamma processes, summed over how long the machine stands, how the season is
// shifted, and the components of the rate.
#include <algorithm>
#include <cmath>

#include "usage/constants.h"
#include "usage/gamma.h"
#include "usage/learnt_ahead.h"

namespace service::usage {

double LearntAhead::passed_since(Day from, double left, Day day, double spread) const {
  if (left <= 0) return day >= from ? 1 : 0;
  if (day <= from) return 0;
  double sum = 0;
  for (const Pause& pause : pauses_) {
    for (const PhaseShift& shift : shifts_) {
      const double days = mean_days(day, shift.days, pause.days) - mean_days(from, shift.days, pause.days);
      if (days <= 0) continue;
      double over_components = 0;
      for (const RateComponent& component : learnt_.rate.components) {
        const double mean = component.mean() * days;
        const double variance = spread + mean * rate_variance(component);
        over_components += component.weight * upper_gamma(mean / variance, left / variance);
      }
      sum += pause.weight * shift.weight * over_components;
    }
  }
  return sum;
}

// What is not known of the rate and of the profile, as a share squared. With a long history the rate's own error is
// in the measured spread already.
double LearntAhead::rate_variance(const RateComponent& component) const {
  const double counted = component.shape <= constants.certain_shape
                             ? 1.0
                             : constants.long_history / (constants.long_history + learnt_.predicted_use);
  return counted / component.shape + constants.profile_doubt * std::exp(-learnt_.known_years);
}

Amount LearntAhead::usage_at(Day day, double share) const {
  const double spread = spread_over(day);
  double low = 0;
  double high = std::max(1.0, 2 * expected(day));
  while (passed(high, day, spread) > 1 - share && high < 1e9) high *= 2;
  for (int i = 0; i < 40 && high - low > constants.use_precision; ++i) {
    const double middle = (low + high) / 2;
    (passed(middle, day, spread) >= 1 - share ? low : high) = middle;
  }
  return amount(low);
}

}  // namespace service::usage
