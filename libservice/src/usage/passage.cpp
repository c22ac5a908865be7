#include "usage/passage.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>

#include "usage/constants.h"
#include "usage/gamma.h"

namespace service::usage {
namespace {

// A normal variable as three values with their weights, which get its first five moments right (Gauss-Hermite:
// Abramowitz & Stegun 25.4.46, from memory).
constexpr double node = 1.7320508075688772;
constexpr double outer = 1.0 / 6;

// Odds of levels, and what they tell of others.
class FallingOdds {
 public:
  FallingOdds(const Passage& passage, double share)
      : passage_(passage), share_(share), seams_(passage.seams()), told_(seams_.size() + 1) {}

  bool above(double level) {
    const auto known = told(level);
    return known ? *known : of(level) > share_;
  }
  bool at_least(double level) {
    const auto known = told(level);
    return known ? *known : of(level) >= share_;
  }

  // Asks about a few levels, so that all but those in a span of about this width around the one sought are told.
  void narrow(double likely, double width) {
    Asked enough{0, 1 - share_};
    Asked fewer{likely, of(likely) - share_};
    for (int steps = 0; fewer.beyond >= 0; ++steps) {
      if (steps == constants.most_steps_out) return;
      enough = fewer;
      fewer.level *= 2;
      fewer.beyond = of(fewer.level) - share_;
    }
    // Regula falsi, an end that stays counting half each time (the Illinois rule, from memory).
    int stayed = 0;
    for (int asked = 0; asked < constants.most_asked && fewer.level - enough.level > width; ++asked) {
      const double part = enough.beyond / (enough.beyond - fewer.beyond);
      const Asked between{enough.level + (fewer.level - enough.level) * std::clamp(part, 0.01, 0.99), 0};
      const double beyond = of(between.level) - share_;
      if (beyond >= 0) {
        enough = {between.level, beyond};
        if (stayed > 0) fewer.beyond /= 2;
        stayed = 1;
      } else {
        fewer = {between.level, beyond};
        if (stayed < 0) enough.beyond /= 2;
        stayed = -1;
      }
    }
  }

 private:
  struct Asked {
    double level;
    double beyond;  // the share
  };

  // Between two seams.
  struct Told {
    double enough = 0;
    double too_few = std::numeric_limits<double>::infinity();
  };

  Told& told_beside(double level) {
    const auto next = std::lower_bound(seams_.begin(), seams_.end(), level);
    return told_[static_cast<std::size_t>(next - seams_.begin())];
  }

  double of(double level) {
    constexpr double tells = 1e-9;  // what differs by roundings tells nothing of other levels
    const double odds = passage_.passed(level);
    Told& told = told_beside(level);
    if (odds > share_ + tells) told.enough = std::max(told.enough, level);
    if (odds < share_ - tells) told.too_few = std::min(told.too_few, level);
    return odds;
  }

  std::optional<bool> told(double level) {
    const Told& told = told_beside(level);
    if (level <= told.enough) return true;
    if (level >= told.too_few) return false;
    return std::nullopt;
  }

  const Passage& passage_;
  double share_;
  std::vector<double> seams_;
  std::vector<Told> told_;
};

}  // namespace

// A log-normal factor whose median is 1: so the doubt about a rate widens the span on both sides, and leaves the middle
// where it is; put into the size of the steps it would draw the middle to later days.
RateDoubt::RateDoubt(double variance)
    : variance_(variance), squared_(std::log1p(variance)), factor_(std::exp(node * std::sqrt(squared_))) {}

// By the mean when it comes to the level, so that all days of one level are reckoned alike.
double RateDoubt::seam(double lump) const {
  return variance_ > 0 ? constants.small_doubt * lump / variance_ : std::numeric_limits<double>::infinity();
}

double RateDoubt::passed(double mean, double lump, double left) const {
  if (left > constants.many_lumps * lump) {
    // The sum of many steps is all but log-normal itself: its median lies a third of a step below its mean.
    const double middle = mean - lump / 3;
    if (middle <= 0) return 0;
    const double squared = squared_ + std::log1p(lump / std::sqrt(left * middle));
    return 0.5 * std::erfc(std::log(left / middle) / std::sqrt(2 * squared));
  }
  if (left <= seam(lump)) {
    const double scale = lump + mean * variance_;
    return upper_gamma(mean / scale, left / scale);
  }
  const auto at = [&](double level) { return upper_gamma(level / lump, left / lump); };
  return (1 - 2 * outer) * at(mean) + outer * (at(mean * factor_) + at(mean / factor_));
}

double Passage::passed(double left) const {
  double sum = 0;
  for (std::size_t i = 0; i < pauses_.size(); ++i) {
    const std::size_t end = i + 1 < pauses_.size() ? pauses_[i + 1].first : terms_.size();
    double of_pause = 0;
    for (std::size_t k = pauses_[i].first; k < end; ++k) {
      of_pause += terms_[k].weight * terms_[k].doubt.passed(terms_[k].mean, lump_, left);
    }
    sum += pauses_[i].weight * of_pause;
  }
  return std::min(1.0, sum);
}

std::vector<double> Passage::seams() const {
  std::vector<double> seams{constants.many_lumps * lump_};
  for (const Term& term : terms_) seams.push_back(term.doubt.seam(lump_));
  std::sort(seams.begin(), seams.end());
  return seams;
}

double level_with(const Passage& passage, double share, double likely, double unit) {
  double low = 0;
  double high = std::max(1.0, 2 * likely);
  FallingOdds odds(passage, share);
  odds.narrow(high / 2, constants.use_precision / unit / 4);
  while (odds.above(high) && high < 1e9) high *= 2;
  for (int i = 0; i < 40 && (high - low) * unit > constants.use_precision; ++i) {
    const double middle = (low + high) / 2;
    (odds.at_least(middle) ? low : high) = middle;
  }
  return low;
}

}  // namespace service::usage
