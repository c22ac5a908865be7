// The forecast's building blocks against a general scientific library (GSL), which shares no code with ours.
#include "usage/gamma.h"

#include <doctest/doctest.h>
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_sf_gamma.h>

#include <cmath>
#include <random>

#include "usage/rate_filter.h"

namespace {

constexpr int draws = 20'000;

double between(std::mt19937_64& random, double low, double high) {
  return std::exp(std::uniform_real_distribution<double>(std::log(low), std::log(high))(random));
}

}  // namespace

TEST_CASE("the incomplete gamma function and its logarithm's neighbour") {
  std::mt19937_64 random(20'260'301);
  double worst = 0;
  for (int i = 0; i < draws; ++i) {
    const double shape = between(random, 1e-3, 5e3);
    // Around the mean, where the odds turn.
    const double x =
        std::max(1e-6, shape + 6 * std::sqrt(shape) * std::uniform_real_distribution<double>(-1, 1)(random));
    worst = std::max(worst, std::abs(service::usage::upper_gamma(shape, x) - gsl_sf_gamma_inc_Q(shape, x)));
    const double y = between(random, 1e-3, 1e6);
    REQUIRE(service::usage::log_gamma(y) == doctest::Approx(gsl_sf_lngamma(y)).epsilon(1e-10));
  }
  CHECK(worst < 1e-8);
}

TEST_CASE("odds that usage passed a level are the survival function of a gamma variable") {
  std::mt19937_64 random(20'260'302);
  for (int i = 0; i < draws; ++i) {
    const double mean = between(random, 0.1, 2e3);
    const double scale = between(random, 0.05, 80);
    const double level = between(random, 0.1, 2e3);
    REQUIRE(std::abs(service::usage::upper_gamma(mean / scale, level / scale) -
                     gsl_cdf_gamma_Q(level, mean / scale, scale)) < 1e-8);
  }
}

TEST_CASE("the likelihood of a window in whole lumps is the negative binomial's") {
  std::mt19937_64 random(20'260'303);
  for (int i = 0; i < draws; ++i) {
    const double shape = between(random, 0.5, 300);
    const double rate = between(random, 0.5, 300);
    const double exposure = between(random, 1, 60);
    const auto lumps = std::uniform_int_distribution<unsigned>(0, 60)(random);
    const double published = gsl_ran_negative_binomial_pdf(lumps, rate / (rate + exposure), shape);
    if (published < 1e-200) continue;
    REQUIRE(service::usage::log_likelihood(lumps, exposure, 1, shape, rate) ==
            doctest::Approx(std::log(published)).epsilon(1e-8));
  }
}
