#include "usage/unserviced.h"

#include <algorithm>

namespace service::usage {

UnservicedOdds::UnservicedOdds(const LearntAhead& ahead, const PlainOdds& plain, double every)
    : ahead_(ahead), every_(every), plain_(plain) {}

UnservicedOdds::Weighed UnservicedOdds::weigh() const {
  Weighed weighed;
  const double now = ahead_.expected(ahead_.as_of());
  const Day to = ahead_.expected_day(now + (1 - constants.fresh_element) * every_, ahead_.as_of());
  if (plain_.by(to).value < constants.negligible) {
    weighed.from = to;  // it comes so much later that nothing is to be weighed
  } else {
    // Mostly next to nothing could have come before as-of.
    const bool late = plain_.by(ahead_.as_of()).value < constants.negligible;
    weighed.from = late ? ahead_.as_of()
                        : first_day_with(plain_, Probability{constants.negligible}, ahead_.first(), to).value_or(to);
  }
  const int days = days_between(weighed.from, to);
  weighed.step = std::max(1, (days + constants.weighing_steps - 1) / constants.weighing_steps);
  double mass = 0;
  double odds = plain_.by(weighed.from).value;
  for (Day day = weighed.from; day < to;) {
    const Day next = std::min(day + std::chrono::days{weighed.step}, to);
    const double later = plain_.by(next).value;
    const Day middle = day + std::chrono::days{days_between(day, next) / 2};
    const double weight = ahead_.unserviced_at(1 - (ahead_.expected(middle) - now) / every_);
    weighed.steps.push_back({mass, odds, weight});
    mass += (later - odds) * weight;
    odds = later;
    day = next;
  }
  weighed.steps.push_back({mass, odds, ahead_.unserviced_at(1 - (ahead_.expected(to) - now) / every_)});
  weighed.whole = mass + (1 - odds) * weighed.steps.back().weight;
  return weighed;
}

const UnservicedOdds::Weighed& UnservicedOdds::weighed() const {
  if (!weighed_) weighed_ = weigh();
  return *weighed_;
}

Probability UnservicedOdds::by(Day day) const {
  const Weighed& weighed = this->weighed();
  if (weighed.whole <= 0) return plain_.by(day);
  if (day < weighed.from) return {};
  const auto i =
      std::min(weighed.steps.size() - 1, static_cast<std::size_t>(days_between(weighed.from, day) / weighed.step));
  const double since = plain_.by(day).value - weighed.steps[i].odds;
  return Probability{(weighed.steps[i].mass + since * weighed.steps[i].weight) / weighed.whole};
}

// No day is likelier than by the plain odds, and those are not weighed.
bool UnservicedOdds::may_be_even(Day day) const {
  constexpr double less = 1e-9;  // than any rounding
  return plain_.may_be_even(day) && plain_.by(day).value >= 0.5 - less;
}

// By the plain odds that come to it.
std::optional<Day> UnservicedOdds::likely(Probability level) const {
  const Weighed& weighed = this->weighed();
  if (weighed.whole <= 0) return plain_.likely(level);
  const double mass = level.value * weighed.whole;
  const auto next = std::upper_bound(weighed.steps.begin() + 1, weighed.steps.end(), mass,
                                     [](double wanted, const Step& step) { return wanted < step.mass; });
  const Step& step = *(next - 1);
  return plain_.likely(Probability{step.odds + (mass - step.mass) / step.weight});
}

}  // namespace service::usage
