#include "standing/observed.h"

#include <algorithm>
#include <cstdlib>

namespace service {
namespace {

// Common practice, no source: a fifth of the limit is near enough to look again before the next service.
bool near_limit(const LimbStanding& limb) {
  if (limb.kind != LimbKind::measured || reached(limb) || !limb.measured) return false;
  constexpr std::int64_t shares = 5;
  return std::abs(limb.limit.millionths - limb.measured->millionths) <= std::abs(limb.limit.millionths) / shares;
}

}  // namespace

void note_observed(Point& point) {
  for (const LimbStanding& limb : point.limbs) {
    if (near_limit(limb)) point.measure_again.push_back(limb.name);
  }
  // Sooner than what? Of a point that nothing else brings due, what is looked for is all that there is to say.
  const bool others = std::any_of(point.limbs.begin(), point.limbs.end(),
                                  [](const LimbStanding& limb) { return !observed(limb.kind); });
  if (is_due(point) || point.standing == Standing::no_record || !others) return;
  for (const LimbStanding& limb : point.limbs) {
    if (limb.kind == LimbKind::measured) point.sooner_if.push_back(limb.name);
    if (limb.kind == LimbKind::sign)
      point.sooner_if.insert(point.sooner_if.end(), limb.signs.begin(), limb.signs.end());
  }
}

}  // namespace service
