// When a point comes due again that is done on a day ahead.
#pragma once

#include <memory>

#include "service/standing.h"
#include "workload/use_ahead.h"

namespace service::load {

// By calendar and use alone; null where neither says anything, and of a check, which comes once. Lives no longer than
// what is expected of the machine. One thread at a time.
std::unique_ptr<const ReachOdds> done_on(UseAhead& use, const Point& point, Day day);

}  // namespace service::load
