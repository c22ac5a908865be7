// From a draft to a fleet: what can only be checked when everything is there, and what then follows.
#pragma once

#include "fleet/draft.h"

namespace service::fleet {

// Fails with bad_fleet where there are errors, found here or before. `main` is where to say what the whole fleet lacks.
Fleet conclude(Draft draft, Diagnostics& diagnostics, const Spot& main);

}  // namespace service::fleet
