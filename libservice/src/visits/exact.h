// Exact arithmetic on fractions, for figures that are rounded once.
#pragma once

#include <cstdint>

namespace service::visits {

__extension__ typedef __int128 Wide;  // NOLINT(modernize-use-using): the extension is said to be one

// To the nearest whole number, a half up. The denominator is positive, the numerator not negative.
inline std::int64_t half_up(Wide numerator, Wide denominator) {
  return static_cast<std::int64_t>((2 * numerator + denominator) / (2 * denominator));
}

}  // namespace service::visits
