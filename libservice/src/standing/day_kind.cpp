// What kind of day a due day is.
#include <algorithm>

#include "service/standing.h"

namespace service {
namespace {

bool counts(const LimbStanding& limb) { return limb.kind == LimbKind::usage || limb.kind == LimbKind::changes; }

}  // namespace

bool unforeseen(const Point& point) {
  return std::any_of(point.limbs.begin(), point.limbs.end(), [](const LimbStanding& limb) {
    return counts(limb) && (limb.unforeseen || limb.state == LimbState::unknown);
  });
}

bool is_expected(const Point& point) {
  if (!point.due_on || reached(point) || point.by_estimate) return false;
  return !point.due_span.p10 || !point.due_span.p90 || *point.due_span.p10 != *point.due_span.p90;
}

DayKind day_kind(const Point& point) {
  if (reached(point) || point.by_estimate) return DayKind::reached;  // its days are odds, and no more
  const auto& [p10, p50, p90] = point.due_span;
  if (!p90) return DayKind::beyond;
  if (*p10 != *p90) return DayKind::span;
  if (unforeseen(point) || !point.sooner_if.empty()) return DayKind::at_latest;
  return std::any_of(point.limbs.begin(), point.limbs.end(), counts) ? DayKind::span : DayKind::certain;
}

}  // namespace service
