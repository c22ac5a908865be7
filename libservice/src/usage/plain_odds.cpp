#include "usage/plain_odds.h"

#include <algorithm>
#include <cmath>

#include "usage/normal.h"

namespace service::usage {

Day PlainOdds::middle() const {
  if (!middle_) middle_ = ahead_.expected_day(ahead_.expected(from_) + left_, from_);
  return *middle_;
}

const Mixture& PlainOdds::mixture() const {
  if (!mixture_) mixture_.emplace(ahead_, from_, middle());
  return *mixture_;
}

Probability PlainOdds::by(Day day) const {
  if (left_ <= 0) return Probability{day >= from_ ? 1.0 : 0.0};
  if (day <= from_) return {};
  for (const auto& [asked, odds] : known_) {
    if (asked == day) return Probability{odds};
  }
  constexpr std::size_t mostly = 32;
  if (known_.empty()) known_.reserve(mostly);
  return Probability{known_.emplace_back(Known{day, mixture().passed(left_, day)}).odds};
}

// The deviate of the odds is nearly straight in the logarithm of the mean. So between two days that are known, or from
// one of them on; where none is, from the day on which the mean comes to the level.
std::optional<Day> PlainOdds::likely(Probability level) const {
  if (left_ <= 0) return from_;
  constexpr double tells = 1e-9;  // odds beyond are no deviates
  const Known* below = nullptr;
  const Known* at = nullptr;
  for (const Known& known : known_) {
    if (known.odds < tells || known.odds > 1 - tells) continue;
    if (known.odds < level.value) {
      if (below == nullptr || known.day > below->day) below = &known;
    } else {
      if (at == nullptr || known.day < at->day) at = &known;
    }
  }
  constexpr double least_mean = 1e-9;
  const double before = ahead_.expected(from_);
  const auto log_mean = [&](const ValueOn& known) { return std::log(std::max(known.value - before, least_mean)); };
  const double wanted = deviate_of(level.value);
  if (below != nullptr && at != nullptr) {
    const ValueOn first = ahead_.expected_on(below->day);
    const ValueOn last = ahead_.expected_on(at->day);
    const double from = deviate_of(below->odds);
    const double to = deviate_of(at->odds);
    const double part = from < to ? (wanted - from) / (to - from) : 0.5;
    return ahead_.expected_day(before + std::exp(std::lerp(log_mean(first), log_mean(last), part)), first, last);
  }
  const Known* const known = below != nullptr ? below : at;
  const ValueOn nearest = ahead_.expected_on(known != nullptr ? known->day : middle());
  const double beyond = wanted - (known != nullptr ? deviate_of(known->odds) : 0);
  const double mean = before + std::exp(log_mean(nearest) + beyond * mixture().spread(left_));
  return beyond > 0 ? ahead_.expected_day(mean, nearest) : ahead_.expected_day(mean, {from_, before}, nearest);
}

}  // namespace service::usage
