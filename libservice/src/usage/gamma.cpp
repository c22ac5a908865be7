#include "usage/gamma.h"

#include <algorithm>
#include <boost/math/policies/policy.hpp>
#include <boost/math/special_functions/gamma.hpp>
#include <cmath>

namespace service::usage {
namespace {

namespace policies = boost::math::policies;
using Plain = policies::policy<
    policies::promote_double<false>, policies::promote_float<false>, policies::domain_error<policies::ignore_error>,
    policies::pole_error<policies::ignore_error>, policies::overflow_error<policies::ignore_error>,
    policies::underflow_error<policies::ignore_error>, policies::evaluation_error<policies::ignore_error>>;

}  // namespace

// Stirling's series from 10 on (Abramowitz & Stegun 6.1.41, from memory; what it leaves out is below the last digit),
// and the recurrence up to there. Boost's takes a logarithm for each step of it, and most of a kind's learning was
// that.
double log_gamma(double x) {
  constexpr double enough = 10;
  constexpr double half_log_two_pi = 0.91893853320467274178;
  double product = 1;
  for (; x < enough; x += 1) product *= x;
  const double z = 1 / (x * x);
  const double series =
      (1.0 / 12 - z * (1.0 / 360 - z * (1.0 / 1260 - z * (1.0 / 1680 - z * (1.0 / 1188 - z * (691.0 / 360360)))))) / x;
  const double above = (x - 0.5) * std::log(x) - x + half_log_two_pi + series;
  return product == 1 ? above : above - std::log(product);
}

double upper_gamma(double shape, double x) {
  return boost::math::gamma_q(std::max(shape, 1e-9), std::max(x, 0.0), Plain());
}

}  // namespace service::usage
