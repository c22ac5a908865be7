// How far use strays from what was predicted: measured on the machine's own past, never assumed.
//
// For half-overlapping spans of about 30, 120 and 365 days the use Y that came is held against the mean m that the rate
// of that day had predicted. Two things stray: use comes in lumps, with a variance of (lump x m), and the rate itself
// is another one than was thought, with a variance of (doubt x m^2). The shortest spans tell the lump; what the longer
// ones stray beyond it tells the doubt.
#pragma once

#include <array>
#include <vector>

#include "usage/rate_filter.h"

namespace service::usage {

inline constexpr std::array<int, 3> spread_days{30, 120, 365};

// Past-only errors of one length.
struct Errors {
  Scatter scatter;
  double mean_squares = 0;  // sum of squared means
};

using PastErrors = std::array<Errors, 3>;

PastErrors past_errors(const std::vector<Window>& windows, const RateMixture& rate);

// `doubts`: variances of the rate as shares squared, at 120 and 365 days.
struct Spread {
  double lump = 0;
  std::array<double, 2> doubts{};
};

// What strays beyond the lumps, as a share squared, and in how many spans that was seen.
struct Excess {
  double share = 0;
  double spans = 0;
};

Excess excess(const Errors& errors, double lump);

// The doubt over so many days.
double doubt_at(const Spread& spread, double days);

}  // namespace service::usage
