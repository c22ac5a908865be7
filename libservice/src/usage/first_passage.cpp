// When usage passes a level: a mixture of gamma processes, summed over how long the machine stands, how the season is
// shifted, and the components of the rate.
#include <algorithm>
#include <cmath>

#include "usage/constants.h"
#include "usage/learnt_ahead.h"

namespace service::usage {

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

double LearntAhead::passed_after(int pause, double weight, Day from, double left, Day day,
                                 const Straying& straying) const {
  if (weight <= 0) return 0;
  double sum = 0;
  for (const PhaseShift& shift : shifts()) {
    const double days = mean_days(day, shift.days, pause) - mean_days(from, shift.days, pause);
    if (days <= 0) continue;
    for (std::size_t i = 0; i < straying.doubts.size(); ++i) {
      const RateComponent& component = components_[i];
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

// As passed_since the last reading, of a later day.
Passage LearntAhead::passage_to(Day day, const Straying& straying) const {
  Passage passage(straying.lump);
  const auto add = [&](int pause, double weight) {
    if (weight <= 0) return;
    passage.add_pause(weight);
    for (const PhaseShift& shift : shifts()) {
      const double days = mean_days(day, shift.days, pause) - mean_days(last_.day, shift.days, pause);
      if (days <= 0) continue;
      for (std::size_t i = 0; i < straying.doubts.size(); ++i) {
        const RateComponent& component = components_[i];
        passage.add_term(shift.weight * component.weight, component.mean() * days, straying.doubts[i]);
      }
    }
  };
  add(0, 1 - straying.stands);
  for (const int days : constants.idle_days)
    add(days, straying.stands / static_cast<double>(constants.idle_days.size()));
  return passage;
}

Amount LearntAhead::usage_at(Day day, double share) const {
  return amount(level_with(passage_to(day, straying_to(day)), 1 - share, expected(day), unit_));
}

}  // namespace service::usage
