// Draws from gamma distributions, against those of Boost.Random from the same numbers.
#include "usage/gamma_draw.h"

#include <doctest/doctest.h>

#include <boost/random/gamma_distribution.hpp>
#include <random>

using service::usage::draw_gamma;

TEST_CASE("the numbers of a seed are those of std::mt19937_64") {
  for (const std::uint64_t seed : {0U, 1U, 5489U, 4'294'967'295U}) {
    service::Draws draws(seed);
    std::mt19937_64 same(seed);
    int differ = 0;
    for (int i = 0; i < 2000; ++i) differ += draws() == same() ? 0 : 1;
    CHECK(differ == 0);
  }
}

TEST_CASE("a draw is that of Boost, to the bit, and takes as many numbers") {
  for (const double shape :
       {1e-8, 0.001, 0.05, 0.3, 0.7, 0.97, 0.999999, 1.0, 1.0000001, 1.00001, 1.02, 1.3, 1.9, 3.0, 9.5, 60.0, 2000.0}) {
    CAPTURE(shape);
    service::Draws random(20'260'615);
    std::mt19937_64 same(20'260'615);
    int differ = 0;
    for (int i = 0; i < 20'000; ++i) {
      boost::random::gamma_distribution<double> gamma(shape, 0.75);
      differ += draw_gamma(random, shape, 0.75) == gamma(same) ? 0 : 1;
    }
    CHECK(differ == 0);
    CHECK(random() == same());
  }
}
