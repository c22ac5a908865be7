// Odds as a type of their own, so that they are not taken for a share, a percentage or a quantity.
#pragma once

#include <compare>

#pragma GCC visibility push(default)

namespace service {

// From 0, never, to 1, for certain. Always an estimate, in floating point: no standing by facts is decided by one. A
// number becomes one only where somebody says so; whoever makes one keeps it within 0 and 1.
struct Probability {
  double value = 0;

  constexpr Probability() = default;
  constexpr explicit Probability(double from) : value(from) {}
  friend constexpr auto operator<=>(const Probability&, const Probability&) = default;
};

}  // namespace service

#pragma GCC visibility pop
