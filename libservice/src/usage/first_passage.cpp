// When usage passes a level: a mixture of gamma processes, summed over how long the machine stands, how the season is
// shifted, and the components of the rate.
#include <algorithm>
#include <cmath>

#include "usage/constants.h"
#include "usage/learnt_ahead.h"
#include "usage/mixture.h"

namespace service::usage {

Mixture::Mixture(const LearntAhead& ahead, Day from, Day to) : ahead_(ahead), from_(from) {
  const Straying straying = ahead.straying_between(from, to);
  lump_ = straying.lump;
  if (straying.stands < 1) pauses_.push_back({0, 1 - straying.stands});
  if (straying.stands > 0) {
    for (const int days : constants.idle_days) {
      pauses_.push_back({days, straying.stands / static_cast<double>(constants.idle_days.size())});
    }
  }
  for (std::size_t i = 0; i < straying.doubts.size(); ++i) {
    const RateComponent& component = ahead.components()[i];
    rates_.push_back({component.mean(), component.weight, straying.doubts[i]});
  }
  for (const Pause& pause : pauses_) {
    for (const PhaseShift& shift : ahead.shifts()) before_.push_back(ahead.mean_days(from, shift.days, pause.days));
  }
}

template <class OfPause, class OfTerm>
void Mixture::each(Day day, const OfPause& pause, const OfTerm& term) const {
  std::size_t i = 0;
  for (const Pause& first : pauses_) {
    pause(first.weight);
    for (const PhaseShift& shift : ahead_.shifts()) {
      const double days = ahead_.mean_days(day, shift.days, first.days) - before_[i++];
      if (days <= 0) continue;
      for (const Rate& rate : rates_) term(shift.weight * rate.weight, rate.mean * days, rate.doubt);
    }
  }
}

double Mixture::passed(double left, Day day) const {
  double sum = 0;
  double of_pause = 0;
  double weight = 0;
  each(
      day,
      [&](double next) {
        sum += weight * of_pause;
        weight = next;
        of_pause = 0;
      },
      [&](double share, double mean, const RateDoubt& doubt) { of_pause += share * doubt.passed(mean, lump_, left); });
  return std::min(1.0, sum + weight * of_pause);
}

Passage Mixture::passage_to(Day day) const {
  Passage passage(lump_);
  each(
      day, [&](double weight) { passage.add_pause(weight); },
      [&](double share, double mean, const RateDoubt& doubt) { passage.add_term(share, mean, doubt); });
  return passage;
}

double Mixture::spread(double left) const {
  double mean = 0;
  double squares = 0;
  double doubt = 0;
  for (const Rate& rate : rates_) {
    mean += rate.weight * rate.mean;
    squares += rate.weight * rate.mean * rate.mean;
    doubt += rate.weight * rate.doubt.squared();
  }
  return std::sqrt(doubt + std::log1p(std::max(0.0, squares / (mean * mean) - 1)) + std::log1p(lump_ / left));
}

// Of a level above the mean the odds are below even ones, for the median of a gamma variable lies below its mean; so it
// is under small doubt and in the log-normal. Of three nodes the outer one above may count whole: then the others have
// to stay below 2/5, which Cantelli's inequality tells, 1 / (1 + (left - mean)^2 / variance). A machine that stands a
// while only comes later.
bool LearntAhead::may_be_even(double left, Day day) const {
  if (left <= 0) return true;
  constexpr double more = 1 + 1e-6;  // than any rounding
  constexpr double of_variance = 1.6;
  const double lump = learnt_.spread.lump;
  for (const PhaseShift& shift : shifts()) {
    const double days = mean_days(day, shift.days, 0);
    for (const RateComponent& component : components_) {
      const double mean = component.mean() * days;
      const double beyond = left - mean * more;
      if (beyond <= 0 || beyond * beyond <= of_variance * mean * lump) return true;
    }
  }
  return false;
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
  for (const RateComponent& component : components_) {
    straying.doubts.emplace_back(rate_variance(component) + doubt);
  }
  // How long it stands is known of a machine that was laid up, and is not to be guessed.
  if (idle_from_) return straying;
  const double idle = learnt_.rate.idle > constants.idle_shown ? learnt_.rate.idle : 0;
  // In a machine that rests each year the season says when it stands.
  const double stops = quiet().rests ? 0 : 1 - std::exp(-learnt_.stop_rate * days_between(from, to));
  straying.stands = idle + (1 - idle) * (stops > constants.idle_shown ? stops : 0);
  return straying;
}

Amount LearntAhead::usage_at(Day day, double share) const {
  return amount(level_with(Mixture(*this, last_.day, day).passage_to(day), 1 - share, expected(day), unit_));
}

}  // namespace service::usage
