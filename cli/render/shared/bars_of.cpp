#include "render/shared/bars_of.h"

#include <algorithm>

namespace cli {

using service::LimbKind;

namespace {

// What rules a point that neither use nor time does.
std::string ruled_otherwise(const service::Point& point) {
  if (!point.ruled_by) return "";
  switch (point.limbs[*point.ruled_by].kind) {
    case LimbKind::measured:
      return "measured";
    case LimbKind::sign:
      return "sign seen";
    case LimbKind::season:
      return "season";
    default:
      return "";
  }
}

}  // namespace

PairedBars bars_of(const service::Point& point, service::Day as_of) {
  PairedBars bars;
  bars.ink = ink_of(point.standing);
  bars.instead = ruled_otherwise(point);
  for (std::size_t i = 0; i < point.limbs.size(); ++i) {
    const LimbKind kind = point.limbs[i].kind;
    if (kind != LimbKind::usage && kind != LimbKind::calendar && kind != LimbKind::changes) continue;
    Lane& lane = kind == LimbKind::calendar ? bars.time : bars.use;
    const auto share = service::share_used(point.limbs[i], as_of);
    if (!lane.there || (share && (!lane.share || *share > *lane.share))) lane.share = share;
    lane.estimate = std::max(lane.estimate, service::share_estimated(point.limbs[i]));
    lane.there = true;
    lane.rules = lane.rules || (point.ruled_by && *point.ruled_by == i);
  }
  return bars;
}

}  // namespace cli
