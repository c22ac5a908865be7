// The incomplete gamma function and the odds made of it, against values computed with scipy 1.10.
#include "usage/gamma.h"

#include <doctest/doctest.h>

#include "support/near.h"
#include "usage/rate_filter.h"

using namespace service;
using test::near;

TEST_CASE("the regularised upper incomplete gamma function") {
  // scipy.special.gammaincc, equal to Boost.Math in 12 digits
  CHECK(usage::upper_gamma(12.5, 10) == near(0.746825306017, 1e-11));
  CHECK(usage::upper_gamma(100, 120) == near(0.0278637398905, 1e-11));
  CHECK(usage::upper_gamma(0.4, 2) == near(0.032852804761, 1e-10));
  CHECK(usage::upper_gamma(0.001, 1) == near(0.000219608357586, 1e-10));
}

TEST_CASE("usage with an uncertain rate passing 100 h") {
  // left 100 h, spread 4 h, rate variance 1/50: Q(L / v, 100 / v) with v = 4 + L / 50; scipy
  const auto passed = [](double mean) {
    const double v = 4 + mean / 50;
    return usage::upper_gamma(mean / v, 100 / v);
  };
  CHECK(passed(80) == near(0.1678714152, 1e-9));
  CHECK(passed(100) == near(0.4674171081, 1e-9));
  CHECK(passed(130) == near(0.8505728586, 1e-9));
}

TEST_CASE("odds of a window under one component of the rate") {
  CHECK(usage::log_likelihood(20, 30, 4, 5, 6) ==
        near(-2.1573024986, 1e-9));  // scipy.stats.nbinom.logpmf(5, 5, 6 / 13.5)
  CHECK(usage::log_likelihood(0, 30, 4, 5, 6) == near(-4.0546510811, 1e-9));
  CHECK(usage::log_likelihood(37.5, 14, 6, 3.2, 2.5) == near(-3.0190813869, 1e-9));
}
