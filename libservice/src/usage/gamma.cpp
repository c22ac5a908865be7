#include "usage/gamma.h"

#include <algorithm>
#include <boost/math/policies/policy.hpp>
#include <boost/math/special_functions/gamma.hpp>

namespace service::usage {
namespace {

namespace policies = boost::math::policies;
using Plain = policies::policy<
    policies::promote_double<false>, policies::promote_float<false>, policies::domain_error<policies::ignore_error>,
    policies::pole_error<policies::ignore_error>, policies::overflow_error<policies::ignore_error>,
    policies::underflow_error<policies::ignore_error>, policies::evaluation_error<policies::ignore_error>>;

}  // namespace

double log_gamma(double x) { return boost::math::lgamma(x, Plain()); }

double upper_gamma(double shape, double x) {
  return boost::math::gamma_q(std::max(shape, 1e-9), std::max(x, 0.0), Plain());
}

}  // namespace service::usage
