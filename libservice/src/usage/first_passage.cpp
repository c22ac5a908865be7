// When usage passes a level: a mixture of gamma processes, summed over how long the machine stands, how the season is
// shifted, and the components of the rate.
#include <algorithm>
#include <cmath>

#include "usage/constants.h"
#include "usage/gamma.h"
#include "usage/learnt_ahead.h"

namespace service::usage {

namespace {

// A normal variable as three values with their weights, which get its first five moments right (Gauss-Hermite:
// Abramowitz & Stegun 25.4.46, from memory).
constexpr double node = 1.7320508075688772;
constexpr double outer = 1.0 / 6;

}  // namespace

// A log-normal factor whose median is 1: so the doubt about a rate widens the span on both sides, and leaves the middle
// where it is; put into the size of the steps it would draw the middle to later days.
RateDoubt::RateDoubt(double variance)
    : variance_(variance), squared_(std::log1p(variance)), factor_(std::exp(node * std::sqrt(squared_))) {}

double RateDoubt::passed(double mean, double lump, double left) const {
  if (left > constants.many_lumps * lump) {
    // The sum of many steps is all but log-normal itself: its median lies a third of a step below its mean.
    const double middle = mean - lump / 3;
    if (middle <= 0) return 0;
    const double squared = squared_ + std::log1p(lump / std::sqrt(left * middle));
    return 0.5 * std::erfc(std::log(left / middle) / std::sqrt(2 * squared));
  }
  if (variance_ * mean < constants.small_doubt * lump) {
    const double scale = lump + mean * variance_;
    return upper_gamma(mean / scale, left / scale);
  }
  const auto at = [&](double level) { return upper_gamma(level / lump, left / lump); };
  return (1 - 2 * outer) * at(mean) + outer * (at(mean * factor_) + at(mean / factor_));
}

double LearntAhead::passed_since(Day from, double left, Day day, const Straying& straying) const {
  if (left <= 0) return day >= from ? 1 : 0;
  if (day <= from) return 0;
  double sum = passed_after(0, 1 - straying.stands, from, left, day, straying);
  for (const int days : constants.idle_days) {
    const double weight = straying.stands / static_cast<double>(constants.idle_days.size());
    sum += passed_after(days, weight, from, left, day, straying);
  }
  return std::min(1.0, sum);
}

double LearntAhead::passed_after(int pause, double weight, Day from, double left, Day day,
                                 const Straying& straying) const {
  if (weight <= 0) return 0;
  double sum = 0;
  for (const PhaseShift& shift : shifts_) {
    const double days = mean_days(day, shift.days, pause) - mean_days(from, shift.days, pause);
    if (days <= 0) continue;
    for (std::size_t i = 0; i < straying.doubts.size(); ++i) {
      const RateComponent& component = learnt_.rate.components[i];
      sum += shift.weight * component.weight * straying.doubts[i].passed(component.mean() * days, straying.lump, left);
    }
  }
  return weight * sum;
}

// What is not known of the rate, as a share squared. With a long history its own error is in the measured doubt
// already.
double LearntAhead::rate_variance(const RateComponent& component) const {
  const double counted = component.shape <= constants.certain_shape
                             ? 1.0
                             : constants.long_history / (constants.long_history + learnt_.predicted_use);
  return counted / component.shape;
}

// What is not known of the season, as a share squared: parts of the year that nobody saw may be busy or dead, all of
// them alike.
double LearntAhead::season_doubt(Day from, Day to) const {
  const int bins = std::clamp(days_between(from, to) / bin_days + 1, 1, bin_count);
  const int first = bin_of(from);
  double days = 0;
  double unseen = 0;
  for (int i = 0; i < bins; ++i) {
    const auto b = static_cast<std::size_t>((first + i) % bin_count);
    const double weight = std::max(learnt_.profile[b], constants.least_profile);
    days += weight;
    unseen += weight * learnt_.unseen[b];
  }
  return constants.unseen_season * (unseen / days) * (unseen / days);
}

Straying LearntAhead::straying_between(Day from, Day to) const {
  Straying straying{learnt_.spread.lump, {}, 0};
  const double doubt = doubt_at(learnt_.spread, days_between(from, to)) + season_doubt(from, to);
  for (const RateComponent& component : learnt_.rate.components) {
    straying.doubts.emplace_back(rate_variance(component) + doubt);
  }
  // How long it stands is known of a machine that was laid up, and is not to be guessed.
  if (idle_from_) return straying;
  const double idle = learnt_.rate.idle > constants.idle_shown ? learnt_.rate.idle : 0;
  // In a machine that rests each year the season says when it stands.
  const double stops = rests_ ? 0 : 1 - std::exp(-learnt_.stop_rate * days_between(from, to));
  straying.stands = idle + (1 - idle) * (stops > constants.idle_shown ? stops : 0);
  return straying;
}

Amount LearntAhead::usage_at(Day day, double share) const {
  const Straying straying = straying_to(day);
  double low = 0;
  double high = std::max(1.0, 2 * expected(day));
  while (passed(high, day, straying) > 1 - share && high < 1e9) high *= 2;
  for (int i = 0; i < 40 && (high - low) * unit_ > constants.use_precision; ++i) {
    const double middle = (low + high) / 2;
    (passed(middle, day, straying) >= 1 - share ? low : high) = middle;
  }
  return amount(low);
}

}  // namespace service::usage
