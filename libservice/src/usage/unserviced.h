// That no service was written down, as evidence of when a level is reached.
#pragma once

#include <optional>
#include <vector>

#include "usage/constants.h"
#include "usage/plain_odds.h"

namespace service::usage {

// The plain odds, held against the silence of the record: had the level been reached long ago, somebody would have
// written down a service. The odds of reaching it on a day are multiplied by the odds that an element is still in at
// the use that would have followed by as-of, and normalised. What comes latest is weighed most, so that no day becomes
// likelier than by the plain odds.
class UnservicedOdds : public ReachOdds {
 public:
  // `every`: the interval, in what is learnt in.
  UnservicedOdds(const LearntAhead& ahead, const PlainOdds& plain, double every);

  Probability by(Day day) const override;
  std::optional<Day> likely(Probability level) const override;
  bool may_be_even(Day day) const override;

 private:
  // From a day on: what was weighed before it, the plain odds by then, and the weight of the days up to the next.
  struct Step {
    double mass;
    double odds;
    double weight;
  };

  struct Weighed {
    Day from{};
    int step = 1;
    std::vector<Step> steps;
    double whole = 1;
  };

  Weighed weigh() const;
  const Weighed& weighed() const;

  const LearntAhead& ahead_;
  double every_;
  const PlainOdds& plain_;
  mutable std::optional<Weighed> weighed_;  // when it is first asked
};

}  // namespace service::usage
