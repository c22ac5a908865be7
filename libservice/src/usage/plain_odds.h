// The odds that use from a day on comes to a level.
#pragma once

#include <optional>
#include <vector>

#include "usage/learnt_ahead.h"
#include "usage/mixture.h"

namespace service::usage {

// The odds as read off the record, without regard to services that nobody wrote down. They remember the days they were
// asked about: the three quantiles of a span are searched on much the same days, and what is known of some days tells
// where to look for others. One thread at a time.
class PlainOdds : public ReachOdds {
 public:
  // From the last reading, or from a day ahead with nothing but the forecast.
  PlainOdds(const LearntAhead& ahead, Day from, double left) : ahead_(ahead), from_(from), left_(left) {}

  Probability by(Day day) const override;
  std::optional<Day> likely(Probability level) const override;
  bool may_be_even(Day day) const override { return from_ != ahead_.first() || ahead_.may_be_even(left_, day); }

 private:
  struct Known {
    Day day;
    double odds;
  };

  // The day by which the mean comes to it; of what is in doubt, that much is taken.
  Day middle() const;
  const Mixture& mixture() const;

  const LearntAhead& ahead_;
  Day from_;
  double left_;
  mutable std::optional<Day> middle_;
  mutable std::optional<Mixture> mixture_;
  mutable std::vector<Known> known_;
};

}  // namespace service::usage
