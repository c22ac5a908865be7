#include "service/run_ban.h"

namespace service {

std::vector<const LimbStanding*> forbidding_limbs(const Point& point) {
  std::vector<const LimbStanding*> limbs;
  if (!never_waits(point)) return limbs;
  for (const LimbStanding& limb : point.limbs) {
    const bool seen = limb.kind == LimbKind::sign && !limb.seen.empty();
    const bool at_limit = limb.kind == LimbKind::measured && reached(limb);
    if (seen || at_limit) limbs.push_back(&limb);
  }
  return limbs;
}

bool forbids_running(const Point& point) { return !forbidding_limbs(point).empty(); }

bool forbids_running(const SeenSign& seen) { return seen.safety || seen.found.has_value(); }

}  // namespace service
