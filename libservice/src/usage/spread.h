// How far use strays from what was predicted: measured on the machine's own past, never assumed.
//
// For half-overlapping spans of about 30, 120 and 365 days the use that came is held against what the rate of that day
// had predicted. Squared error over mean, a dispersion, is the spread at that length: at 30 days the lumpiness of use,
// and its growth with the length is how one year differs from the next.
#pragma once

#include <array>
#include <vector>

#include "usage/rate_filter.h"

namespace service::usage {

inline constexpr std::array<int, 3> spread_days{30, 120, 365};

using Scatters = std::array<Scatter, 3>;
using Spreads = std::array<double, 3>;

// Past-only errors. `windows` and `rate.predicted` belong together.
Scatters past_errors(const std::vector<Window>& windows, const RateMixture& rate);

Spreads pooled_spread(const Scatters& all);

// `known_years`: own years and half of those of the kind's others; `used`: all use that was read.
struct SpreadQuestion {
  double known_years = 0;
  double used = 0;
  double rate = 0;  // hours a mean day
};

Spreads spread_of(const Scatters& own, const Spreads& pooled, const SpreadQuestion& question,
                  const ForecastConstants& use = constants);

// At a number of days, on a straight line in logarithms, held outside.
double spread_at(const Spreads& spreads, double days);

}  // namespace service::usage
