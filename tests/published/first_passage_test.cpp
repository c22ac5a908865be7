// When a limit is passed for the first time by wear, or by use, that grows in gamma steps.
#include <doctest/doctest.h>

#include <cmath>
#include <initializer_list>

#include "support/near.h"
#include "usage/gamma.h"

using service::usage::upper_gamma;
using test::near;

namespace {

// P(N <= last) of a Poisson number with mean 10.
double poisson_up_to(int last) {
  double sum = 0;
  double term = std::exp(-10.0);
  for (int n = 0; n <= last; ++n) {
    sum += term;
    term *= 10.0 / (n + 1);
  }
  return sum;
}

}  // namespace

TEST_CASE("first passage of a wear limit by a gamma process") {
  // P(T <= t) = Q(a t, b D): van Noortwijk, Reliability Engineering & System Safety 94 (2009) 2-21, from memory. With
  // a = 0.02 a hour, b = 1 a millimetre and D = 10 mm, numbers of ours, for which scipy 1.10 gives these values.
  CHECK(upper_gamma(0.02 * 400, 10) == near(0.2202206466, 1e-9));
  CHECK(upper_gamma(0.02 * 500, 10) == near(0.4579297145, 1e-9));
  CHECK(upper_gamma(0.02 * 600, 10) == near(0.6967761463, 1e-9));
}

TEST_CASE("for whole shapes the incomplete gamma function is a Poisson sum") {
  // Q(n + 1, z) = exp(-z) (1 + z + ... + z^n / n!): NIST Digital Library of Mathematical Functions, 8.4.10, from
  // memory.
  for (const int n : {0, 7, 9, 11, 30}) CHECK(upper_gamma(n + 1, 10) == near(poisson_up_to(n), 1e-12));
}
