#include "usage/gamma_draw.h"

#include <boost/random/exponential_distribution.hpp>
#include <cmath>
#include <numbers>

namespace service::usage {
namespace {

// Bounds are taken to tell only what they do by more than any rounding.
constexpr double surely = 1e-9;

// From a Cauchy variable, the tangent of an even angle, shifted and stretched.
double draw_peaked(Draws& random, double shape) {
  const double minus_one = shape - 1;
  const double stretch = std::sqrt(2 * shape - 1);
  const double least = minus_one / stretch;  // the tangent below whose negative nothing is drawn
  const bool told_by_bound = minus_one > 1e-6;
  for (;;) {
    const double angle = draw_even(random);
    if (told_by_bound && angle > 0.5) {
      // tan(pi v) > 8 v / (pi (1 - 4 v^2)), v below 1/2 (Becker & Stark 1978, from memory)
      const double v = 1 - angle;
      if (8 * v > least * std::numbers::pi * (1 - 4 * v * v) * (1 + surely)) continue;
    }
    const double y = std::tan(std::numbers::pi * angle);
    const double x = stretch * y + shape - 1;
    if (x <= 0) continue;
    if (draw_even(random) > (1 + y * y) * std::exp(minus_one * std::log(x / minus_one) - stretch * y)) continue;
    return x;
  }
}

// From a power of an exponential variable below 1, and such a variable itself above.
double draw_falling(Draws& random, double shape) {
  const double below = std::numbers::e / (shape + std::numbers::e);
  boost::random::exponential_distribution<double> exponential(1);
  for (;;) {
    const double u = draw_even(random);
    const double y = exponential(random);
    if (u < below) {
      const double x = std::exp(-y / shape);
      // 1 - x + x^2/2 - x^3/6 < exp(-x) < 1 - x + x^2/2
      const double more = 1 - x * (1 - x / 2);
      if (u > below * more * (1 + surely)) continue;
      const double less = more - x * x * x / 6;
      if (u < below * less * (1 - surely) || u < below * std::exp(-x)) return x;
    } else {
      const double x = 1 + y;
      // By Bernoulli, 1 / (1 + c y) < x^-c < (1 + (1 - c) y) / x, c between 0 and 1
      if (u > (below + (1 - below) * (1 + shape * y) / x) * (1 + surely)) continue;
      if (u < (below + (1 - below) / (1 + (1 - shape) * y)) * (1 - surely)) return x;
      if (u < below + (1 - below) * std::pow(x, shape - 1)) return x;
    }
  }
}

}  // namespace

double draw_gamma(Draws& random, double shape, double scale) {
  if (shape == 1) return boost::random::exponential_distribution<double>(1)(random) * scale;
  return (shape > 1 ? draw_peaked(random, shape) : draw_falling(random, shape)) * scale;
}

}  // namespace service::usage
