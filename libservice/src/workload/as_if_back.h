// What would be asked of machines that stand if somebody said today that they are back.
#pragma once

#include "service/snapshot.h"

namespace service::load {

// About these machines alone. Nothing is said by it of whether they may be run.
Snapshot as_if_back(const Snapshot& snapshot, const Scope& machines);

}  // namespace service::load
