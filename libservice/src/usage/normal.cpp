#include "usage/normal.h"

#include <algorithm>
#include <cmath>

namespace service::usage {

// Abramowitz & Stegun 26.2.23, from memory.
double deviate_of(double odds) {
  constexpr double six = 1e-9;
  const double tail = std::max(std::min(odds, 1 - odds), six);
  const double t = std::sqrt(-2 * std::log(tail));
  const double above =
      t - (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
  return odds < 0.5 ? -above : above;
}

}  // namespace service::usage
