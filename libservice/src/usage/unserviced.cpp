#include "usage/unserviced.h"

#include <algorithm>

namespace service::usage {

UnservicedOdds::UnservicedOdds(const LearntAhead& ahead, double left, double every) : plain_(ahead, left) {
  const double now = ahead.expected(ahead.as_of());
  to_ = ahead.expected_day(now + (1 - constants.fresh_element) * every, ahead.as_of());
  if (plain_.by(to_).value < constants.negligible) {
    from_ = to_;  // it comes so much later that nothing is to be weighed
  } else {
    // Mostly next to nothing could have come before as-of.
    const bool late = plain_.by(ahead.as_of()).value < constants.negligible;
    from_ = late ? ahead.as_of()
                 : first_day_with(plain_, Probability{constants.negligible}, ahead.first(), to_).value_or(to_);
  }
  const int days = days_between(from_, to_);
  step_ = std::max(1, (days + constants.weighing_steps - 1) / constants.weighing_steps);
  double mass = 0;
  double odds = plain_.by(from_).value;
  for (Day day = from_; day < to_;) {
    const Day next = std::min(day + std::chrono::days{step_}, to_);
    const double later = plain_.by(next).value;
    const Day middle = day + std::chrono::days{days_between(day, next) / 2};
    const double weight = ahead.unserviced_at(1 - (ahead.expected(middle) - now) / every);
    steps_.push_back({mass, odds, weight});
    mass += (later - odds) * weight;
    odds = later;
    day = next;
  }
  steps_.push_back({mass, odds, ahead.unserviced_at(1 - (ahead.expected(to_) - now) / every)});
  whole_ = mass + (1 - odds) * steps_.back().weight;
}

Probability UnservicedOdds::by(Day day) const {
  if (whole_ <= 0) return plain_.by(day);
  if (day < from_) return {};
  const auto i = std::min(steps_.size() - 1, static_cast<std::size_t>(days_between(from_, day) / step_));
  const double since = plain_.by(day).value - steps_[i].odds;
  return Probability{(steps_[i].mass + since * steps_[i].weight) / whole_};
}

}  // namespace service::usage
