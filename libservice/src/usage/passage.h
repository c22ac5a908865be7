// The odds that use has come to a level by one day, as the terms of a mixture: for whoever asks about many levels.
#pragma once

#include <vector>

namespace service::usage {

// That the rate of use is another one than was thought.
class RateDoubt {
 public:
  explicit RateDoubt(double variance);  // as a share squared

  // Odds that gamma steps of size `lump` with a mean of `mean` have come to `left`. They grow with the mean, so that
  // no day is less likely than the one before it.
  double passed(double mean, double lump, double left) const;

  // The level from which on such a doubt is told apart from the size of the steps: the odds fall with the level on each
  // side of it, and may step there.
  double seam(double lump) const;

  double squared() const { return squared_; }  // deviation of its logarithm

 private:
  double variance_;
  double squared_;
  double factor_;  // at the outer nodes
};

class Passage {
 public:
  explicit Passage(double lump) : lump_(lump) {}

  void add_pause(double weight) { pauses_.push_back({weight, terms_.size()}); }
  void add_term(double weight, double mean, const RateDoubt& doubt) { terms_.push_back({weight, mean, doubt}); }

  // `left` above 0.
  double passed(double left) const;

  // Where the sum of gamma steps begins to be taken as log-normal, and where a doubt is told apart from them: between
  // two of them the odds fall with the level, and at each they may step up or down. From the lowest.
  std::vector<double> seams() const;

 private:
  struct Pause {
    double weight;
    std::size_t first;  // of its terms
  };
  struct Term {
    double weight;
    double mean;
    RateDoubt doubt;
  };

  double lump_;
  std::vector<Pause> pauses_;
  std::vector<Term> terms_;
};

// The level that has been come to with odds of `share`, found by halves from below, so finely as the meter shows it:
// `unit` is the meter's, `likely` the mean. The odds are costly and fall with the level, so that most halves are told
// by a few levels near the one sought.
double level_with(const Passage& passage, double share, double likely, double unit);

}  // namespace service::usage
