#include "standing/decide_standing.h"

#include <algorithm>
#include <tuple>

namespace service {
namespace {

// Worst first. Among equal standings facts come before estimates, then the earliest due day, then usage, then the
// order as written.
auto rank(const LimbStanding& limb, std::size_t index) {
  int standing = 4;
  if (limb.state == LimbState::overdue)
    standing = 0;
  else if (limb.state == LimbState::due)
    standing = 1;
  else if (limb.by_estimate)
    standing = 2;
  else if (limb.state == LimbState::not_reached)
    standing = 3;
  return std::tuple{standing, !limb.due_on.has_value(), limb.due_on.value_or(Day{}), limb.kind != LimbKind::usage,
                    index};
}

// A sign that nobody saw and a value that nobody measured are quiet, unless that is the only limb.
void find_unknown(Point& point) {
  for (const LimbStanding& limb : point.limbs) {
    if (limb.state != LimbState::unknown) continue;
    if (observed(limb.kind) && point.limbs.size() > 1 && !limb.other_unit) continue;
    if (std::find(point.unknown.begin(), point.unknown.end(), limb.kind) == point.unknown.end()) {
      point.unknown.push_back(limb.kind);
    }
  }
}

bool past_grace_by_estimate(const Point& point) {
  return std::any_of(point.limbs.begin(), point.limbs.end(),
                     [](const LimbStanding& limb) { return limb.past_grace_by_estimate; });
}

// Nothing to go by: every usage and calendar limb is unknown, or, where there are none, nothing was ever fitted.
bool nothing_to_go_by(const Point& point) {
  bool any_countable = false;
  for (const LimbStanding& limb : point.limbs) {
    if (limb.kind != LimbKind::usage && limb.kind != LimbKind::calendar) continue;
    if (limb.state != LimbState::unknown) return false;
    any_countable = true;
  }
  return any_countable || !point.fitted;
}

}  // namespace

void decide_standing(Point& point, Day within) {
  find_unknown(point);
  std::optional<std::size_t> best;
  for (std::size_t i = 0; i < point.limbs.size(); ++i) {
    if (point.limbs[i].state == LimbState::unknown) continue;
    if (!best || rank(point.limbs[i], i) < rank(point.limbs[*best], *best)) best = i;
  }
  const bool is_reached = best && reached(point.limbs[*best]);
  if (!is_reached && nothing_to_go_by(point)) {
    point.standing = Standing::no_record;
    return;
  }
  if (!best) {
    point.standing = Standing::later;  // fitted, and nothing noticed since: what is unknown is said beside it
    return;
  }
  const LimbStanding& ruling = point.limbs[*best];
  point.ruled_by = best;
  point.due_on = ruling.due_on;
  if (is_reached) {
    point.standing = ruling.state == LimbState::overdue ? Standing::overdue : Standing::due;
    point.past_grace_by_estimate = point.standing == Standing::due && past_grace_by_estimate(point);
    return;
  }
  if (ruling.by_estimate) {
    point.standing = Standing::due;
    point.by_estimate = true;
    point.past_grace_by_estimate = past_grace_by_estimate(point);
    return;
  }
  point.standing = point.due_on && *point.due_on <= within ? Standing::coming : Standing::later;
}

}  // namespace service
