// What is bought for a season's list, and what for other work that takes from the same stock before the season begins.
#pragma once

#include "service/workload.h"

#pragma GCC visibility push(default)

namespace service {

// Of the parts for a season: that list has no service that takes it, and so does not order it.
bool for_other_work(const PartNeed& need);

}  // namespace service

#pragma GCC visibility pop
