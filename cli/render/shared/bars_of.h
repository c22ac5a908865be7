// The paired use bars of a service point, for a terminal and for a page.
#pragma once

#include "service/standing.h"
#include "terminal/bars.h"

namespace cli {

// Of several limbs in a lane, the one that is furthest.
PairedBars bars_of(const service::Point& point, service::Day as_of);

}  // namespace cli
