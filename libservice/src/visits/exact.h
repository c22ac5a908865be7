// Exact arithmetic on fractions, for figures that are rounded once.
#pragma once

#include <cstdint>

namespace service::visits {

__extension__ typedef __int128 Wide;  // NOLINT(modernize-use-using): the extension is said to be one

// Not negative; the denominator is positive.
struct Fraction {
  Wide numerator = 0;
  Wide denominator = 1;
};

// To the nearest whole number, a half up. The denominator is positive, the numerator not negative.
inline std::int64_t half_up(Wide numerator, Wide denominator) {
  return static_cast<std::int64_t>((2 * numerator + denominator) / (2 * denominator));
}

inline std::int64_t half_up(const Fraction& fraction) { return half_up(fraction.numerator, fraction.denominator); }

}  // namespace service::visits
