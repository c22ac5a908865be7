// Paired use bars on a page: the share of an interval used, by use above and by time below, on one scale. A notch marks
// where the interval ends, at two thirds of the width, so that what ran over shows past it. (In the terminal:
// terminal/bars.h.)
#pragma once

#include <string_view>

#include "render/html/page.h"
#include "terminal/bars.h"

namespace cli {

// `says`: the same in words, for whoever does not see it. Nothing is added where neither lane is there. What an
// estimate adds is outlined, and what goes on beyond the edge ends in an arrow.
void add_use_bars(const Element& parent, const PairedBars& bars, std::string_view says);

}  // namespace cli
