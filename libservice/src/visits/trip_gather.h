// One machine's work of a day with one crew, where that costs nothing: whoever meets another crew at a machine has to
// agree with it who locks it off.
#pragma once

#include "visits/trip_model.h"

namespace service::visits::trip {

// The same plan, or one that is as good (by its rank) and in which fewer crews meet at a machine.
Places gathered(const SiteModel& model, Places places);

}  // namespace service::visits::trip
