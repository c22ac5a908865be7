// How far use strays from what was predicted: measured on the machine's own past, never assumed.
//
// For stretches of about 30, 120 and 365 days the use that came is held against what the level of that day had
// predicted. Squared error over mean is the spread at that length: at 30 days the lumpiness of use, and its growth with
// the length is how one year differs from the next.
#pragma once

#include <array>
#include <vector>

#include "usage/levels.h"

namespace service::usage {

inline constexpr std::array<int, 3> spread_days{30, 120, 365};

using Scatters = std::array<Scatter, 3>;
using Spreads = std::array<double, 3>;

// Past-only errors. `windows` and `levels.before` belong together.
Scatters past_errors(const std::vector<Window>& windows, const Levels& levels);

Spreads spread_of_kind(const Scatters& all);

// `known_years`: own years and half of those of the kind's others; `used`: all use that was read.
struct SpreadQuestion {
  double known_years = 0;
  double used = 0;
  double level = 0;
};

Spreads spread_of(const Scatters& own, const Spreads& kind, const SpreadQuestion& question,
                  const ForecastConstants& use = constants);

// At a number of days, on a straight line in logarithms, held outside.
double spread_at(const Spreads& spreads, double days);

}  // namespace service::usage
