// Use from a day on, as the mixture of gamma processes that it is: what its terms share is worked out once.
#pragma once

#include <vector>

#include "usage/learnt_ahead.h"
#include "usage/passage.h"

namespace service::usage {

class Mixture {
 public:
  // What is in doubt is taken as on the way from one day to the other.
  Mixture(const LearntAhead& ahead, Day from, Day to);

  // Odds that use since `from` has come to `left` by the end of a day.
  double passed(double left, Day day) const;

  // The same of one day, for whoever asks about many levels.
  Passage passage_to(Day day) const;

  // About how far the logarithm of use strays when the mean comes to `left`.
  double spread(double left) const;

 private:
  // How long it stands first, and the odds of it.
  struct Pause {
    int days;
    double weight;
  };
  struct Rate {
    double mean;
    double weight;
    RateDoubt doubt;
  };

  // Calls `pause(weight)` and, behind it, `term(weight, mean, doubt)` for each of its terms.
  template <class OfPause, class OfTerm>
  void each(Day day, const OfPause& pause, const OfTerm& term) const;

  const LearntAhead& ahead_;
  Day from_;
  double lump_;
  std::vector<Pause> pauses_;
  std::vector<Rate> rates_;
  std::vector<double> before_;  // mean days up to `from`, by pause and phase shift
};

}  // namespace service::usage
