#include "service/run_ban.h"

#include <algorithm>

namespace service {

bool forbids_running(const Point& point) {
  if (!never_waits(point)) return false;
  return std::any_of(point.limbs.begin(), point.limbs.end(),
                     [](const LimbStanding& limb) { return limb.kind == LimbKind::sign && !limb.seen.empty(); });
}

bool forbids_running(const SeenSign& seen) { return seen.safety || seen.found.has_value(); }

}  // namespace service
