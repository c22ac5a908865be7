// The best round of a single shift, exactly, over all sets of its jobs (after Held and Karp 1962 and Bellman 1962, with
// the times that a set can end at).
#pragma once

#include <optional>

#include "routing/kinds.h"

namespace service::routing {

// An empty route where no round is worth it. None where there are too many jobs, or where duty or load counts.
std::optional<Route> best_round(const Problem& problem, const ShiftKind& kind);

}  // namespace service::routing
