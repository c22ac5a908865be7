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

// A sign that nobody saw is quiet; a value that nobody measured is too, unless that is the only limb.
void find_unknown(Point& point) {
  for (const LimbStanding& limb : point.limbs) {
    if (limb.state != LimbState::unknown || limb.kind == LimbKind::sign) continue;
    if (limb.kind == LimbKind::measured && point.limbs.size() > 1 && !limb.other_unit) continue;
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

std::optional<std::size_t> ruling_limb(const Point& point) {
  std::optional<std::size_t> worst;
  for (std::size_t i = 0; i < point.limbs.size(); ++i) {
    if (point.limbs[i].state == LimbState::unknown) continue;
    if (!worst || rank(point.limbs[i], i) < rank(point.limbs[*worst], *worst)) worst = i;
  }
  return worst;
}

bool decide_standing(Point& point) {
  find_unknown(point);
  const auto worst = ruling_limb(point);
  const bool is_reached = worst && reached(point.limbs[*worst]);
  if (!is_reached && nothing_to_go_by(point)) {
    point.standing = Standing::no_record;
    return false;
  }
  point.standing = Standing::later;
  if (!worst) return false;  // fitted, and nothing noticed since: what is unknown is said beside it
  const LimbStanding& ruling = point.limbs[*worst];
  if (is_reached) {
    point.standing = ruling.state == LimbState::overdue ? Standing::overdue : Standing::due;
  } else if (ruling.by_estimate) {
    point.standing = Standing::due;
    point.by_estimate = true;
  } else {
    return true;
  }
  point.ruled_by = worst;
  point.due_on = ruling.due_on;
  point.past_grace_by_estimate = point.standing == Standing::due && past_grace_by_estimate(point);
  return !is_reached;
}

}  // namespace service
