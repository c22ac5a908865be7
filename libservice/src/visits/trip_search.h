// Better plans of one site by changing one at hand, until no change of a kind that is tried helps.
#pragma once

#include "visits/trip_model.h"

namespace service::visits::trip {

// Tried are: to do a service elsewhere (with what it includes, with all other work at its machine, or with its whole
// trip) on a trip that is made or on one of its own; that in place of something else,
// which goes where it costs least then; to shift a trip by some days; to give one up,
// whose work goes where it costs least; to make one more, with all that is better done then. Of changes that are as
// good the first, so that the same work makes the same plan.
struct Improved {
  Places places;
  bool settled = false;  // nothing that is tried helps any more; else the steps were used up
};

Improved improved(const SiteModel& model, Places places);

}  // namespace service::visits::trip
