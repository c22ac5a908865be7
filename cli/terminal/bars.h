// Paired use bars: the share of an interval used, by use and by time, on one scale.
//
// A stroke marks where the interval ends, at two thirds of the width, so that what ran over shows past it. The lane
// that rules is drawn in the colour of the standing, the other one in grey. What only an estimate says is drawn apart
// from what is known. Where something else than use or time rules, a bar that ends before the stroke would say that
// there is time left: that is named in its place.
#pragma once

#include <optional>
#include <string>

#include "terminal/look.h"

namespace cli {

struct Lane {
  bool there = false;           // the task has such a limb
  std::optional<double> share;  // known; 1 is the whole interval; none: not known
  bool rules = false;
  std::optional<double> estimate = {};  // where that is more than what is known
};

struct PairedBars {
  Lane use;              // above
  Lane time;             // below
  Ink ink = Ink::plain;  // of the standing
  std::string instead;   // what rules, in a word of at most nine letters; empty: use or time does
};

// Two lines of `cells` columns each.
std::string use_bar(const Look& look, const PairedBars& bars, std::size_t cells);
std::string time_bar(const Look& look, const PairedBars& bars, std::size_t cells);

// Both in one line, in the upper and the lower half of its cells. Needs line drawing.
std::string both_bars(const Look& look, const PairedBars& bars, std::size_t cells);

}  // namespace cli
