// The mean number of services to come, by simulation, against sums of our own.
#include "support/renewals.h"

#include <doctest/doctest.h>

#include <cmath>

using test::Renewals;
using test::renewals;

TEST_CASE("an interval of one hour: a service on every day with a job") {
  // Our own reckoning: at most one service a day, so that the days between two are geometric and not exponential.
  constexpr double rate = 0.02;
  const Renewals got = renewals(1, rate, 500);
  const double a_day = 1 - std::exp(-rate);
  CHECK(std::abs(got.mean - 500 * a_day) < 4 * got.error);
  CHECK(got.error < 0.06);
}

TEST_CASE("an interval of three hours: Poisson sums") {
  // P(at least n services by t) = P(Poisson(rate t) >= 3 n): the mean is the sum of those. Our own reckoning.
  constexpr double rate = 0.02;
  constexpr double t = rate * 600;
  double expected = 0;
  for (int n = 1; n < 30; ++n) {
    double below = 0;
    double term = std::exp(-t);
    for (int k = 0; k < 3 * n; ++k) {
      below += term;
      term *= t / (k + 1);
    }
    expected += 1 - below;
  }
  const Renewals got = renewals(3, rate, 600);
  CHECK(std::abs(got.mean - expected) < 4 * got.error + 0.01 * expected);
}
