// Use of a machine while it is laid up or out of use, as its meters tell it.
#pragma once

#include <vector>

#include "service/fleet.h"
#include "service/snapshot.h"
#include "service/usage.h"

namespace service {

// By meter, in the machine's order; none of a machine in use. A value of the very day on which somebody said last that
// it stands was shown before: saying so anew answers what was run until then.
std::vector<RanSince> ran_since(const Machine& machine, const UseState& state, const Histories& histories);

}  // namespace service
