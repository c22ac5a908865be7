// Which machines work in a season.
#pragma once

#include "workload/use_ahead.h"

namespace service::load {

// Whose owner says how much it is used in the season; which is expected to be used in it at least half as much as if
// the year were even; or of which nobody can tell.
bool works_in(UseAhead& use, const Machine& machine, const Season& season, const SeasonDays& days);

}  // namespace service::load
