// Paired use bars: the share of an interval used, by use and by time, on one scale.
//
// A stroke marks where the interval ends, at two thirds of the width, so that what ran over shows past it. The lane
// that rules is drawn in the colour of the standing, the other one in grey.
#pragma once

#include <optional>
#include <string>

#include "terminal/look.h"

namespace cli {

struct Lane {
  bool there = false;           // the task has such a limb
  std::optional<double> share;  // 1 is the whole interval; none: not known
  bool rules = false;
};

struct PairedBars {
  Lane use;              // above
  Lane time;             // below
  Ink ink = Ink::plain;  // of the standing
};

// Two lines of `cells` columns each.
std::string use_bar(const Look& look, const PairedBars& bars, std::size_t cells);
std::string time_bar(const Look& look, const PairedBars& bars, std::size_t cells);

// Both in one line, in the upper and the lower half of its cells. Needs line drawing.
std::string both_bars(const Look& look, const PairedBars& bars, std::size_t cells);

}  // namespace cli
