// The special functions of the forecast, without promotion to long double and without exceptions.
#pragma once

namespace service::usage {

// ln Gamma(x), x > 0.
double log_gamma(double x);

// The regularised upper incomplete gamma function Q(a, x): the odds that a gamma variable of that shape (scale 1) is
// above x. A shape below 1e-9, as in a dead season, is taken as 1e-9; x below 0 as 0.
double upper_gamma(double shape, double x);

}  // namespace service::usage
