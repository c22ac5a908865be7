// What somebody sees or measures comes without odds: what there is to say of it instead.
#pragma once

#include "service/standing.h"

namespace service {

// Fills `sooner_if` and `measure_again` of a point whose standing is decided.
void note_observed(Point& point);

}  // namespace service
