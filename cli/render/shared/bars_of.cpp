#include "render/shared/bars_of.h"

namespace cli {

using service::LimbKind;

PairedBars bars_of(const service::Point& point, service::Day as_of) {
  PairedBars bars;
  bars.ink = ink_of(point.standing);
  for (std::size_t i = 0; i < point.limbs.size(); ++i) {
    const LimbKind kind = point.limbs[i].kind;
    if (kind != LimbKind::usage && kind != LimbKind::calendar && kind != LimbKind::changes) continue;
    Lane& lane = kind == LimbKind::calendar ? bars.time : bars.use;
    const auto share = service::share_used(point.limbs[i], as_of);
    if (!lane.there || (share && (!lane.share || *share > *lane.share))) lane.share = share;
    lane.there = true;
    lane.rules = lane.rules || (point.ruled_by && *point.ruled_by == i);
  }
  return bars;
}

}  // namespace cli
