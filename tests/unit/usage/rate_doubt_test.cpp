// A gamma process whose rate is in doubt: three nodes, or a log-normal, against an integral worked out by another
// library.
#include <doctest/doctest.h>

#include <algorithm>
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <boost/math/special_functions/gamma.hpp>
#include <cmath>
#include <numbers>
#include <vector>

#include "usage/learnt_ahead.h"

using service::usage::RateDoubt;

namespace {

// P(gamma steps of size `lump`, mean `mean` x exp(s z), z normal, come to `left`), s^2 = ln(1 + doubt).
double integral(double mean, double lump, double doubt, double left) {
  const double s = std::sqrt(std::log1p(doubt));
  const auto at = [&](double z) {
    return std::exp(-z * z / 2) / std::sqrt(2 * std::numbers::pi) *
           boost::math::gamma_q(mean * std::exp(s * z) / lump, left / lump);
  };
  return boost::math::quadrature::gauss_kronrod<double, 61>::integrate(at, -8.0, 8.0, 8, 1e-9);
}

}  // namespace

TEST_CASE("odds of having come to a level under a rate in doubt") {
  // Few lumps to a level, and many; little doubt, and much. Three nodes are a rough integral, and where the lumps hide
  // a doubt it is added to them: that is worth so much, and no more.
  for (const double lumps : {0.5, 2.0, 6.0, 20.0, 200.0}) {
    for (const double doubt : {0.001, 0.03, 0.2, 0.6}) {
      for (const double mean : {0.3, 0.6, 0.8, 1.0, 1.3, 2.0, 3.0}) {
        CAPTURE(lumps);
        CAPTURE(doubt);
        CAPTURE(mean);
        const double odds = RateDoubt(doubt).passed(mean, 1 / lumps, 1);
        CHECK(std::abs(odds - integral(mean, 1 / lumps, doubt, 1)) < (doubt > 0.3 ? 0.06 : 0.04));
      }
    }
  }
}

TEST_CASE("doubt about a rate leaves the middle where it is") {
  const double sure = RateDoubt(1e-6).passed(10, 0.5, 10);
  CHECK(std::abs(RateDoubt(0.5).passed(10, 0.5, 10) - sure) < 0.03);
  // and widens both sides.
  CHECK(RateDoubt(0.5).passed(7, 0.5, 10) > RateDoubt(1e-6).passed(7, 0.5, 10) + 0.1);
  CHECK(RateDoubt(0.5).passed(14, 0.5, 10) < RateDoubt(1e-6).passed(14, 0.5, 10) - 0.1);
}

TEST_CASE("odds grow with the mean") {
  constexpr double negligible = 1e-9;  // so far below the level the deviate of a log-normal turns
  for (const double lump : {0.05, 0.5, 0.99, 1.01, 1.5, 2.5, 5.0, 8.0}) {
    for (const double variance : {0.001, 0.01, 0.03, 0.05, 0.1, 0.2, 0.3, 0.6}) {
      CAPTURE(lump);
      CAPTURE(variance);
      const RateDoubt doubt(variance);
      double before = 0;
      for (int step = 0; step < 300; ++step) {
        const double odds = doubt.passed(0.05 * std::pow(1.025, step), lump, 8);
        CHECK(odds >= before - negligible);
        before = odds;
      }
      CHECK(before > 0.9);
    }
  }
}

TEST_CASE("odds fall with the level between two seams") {
  constexpr double rounding = 1e-12;
  for (const double lump : {0.5, 1.5, 4.0}) {
    service::usage::Passage passage(lump);
    passage.add_pause(1);
    passage.add_term(0.5, 7, RateDoubt(0.03));
    passage.add_term(0.5, 11, RateDoubt(0.2));
    const std::vector<double> seams = passage.seams();
    CHECK(std::is_sorted(seams.begin(), seams.end()));
    CHECK(seams.size() == 3);
    double before = 1;
    double beside = 0;
    for (int step = 1; step < 4000; ++step) {
      const double level = 0.01 * step;
      const bool over_a_seam =
          std::any_of(seams.begin(), seams.end(), [&](double seam) { return seam < level && seam >= beside; });
      const double odds = passage.passed(level);
      if (!over_a_seam) CHECK(odds <= before + rounding);
      before = odds;
      beside = level;
    }
  }
}
