#include "render/overdue/parts_of_block.h"

#include <algorithm>

namespace cli {

BlockParts parts_of(const service::OverdueBlock& block, const service::DueList& list) {
  BlockParts parts;
  for (const service::OverdueEntry& entry : block.entries) {
    if (entry.point != nullptr) parts.points.push_back(entry.point);
    if (entry.seen != nullptr) parts.seen.push_back(entry.seen);
    if (entry.gap != nullptr) parts.gaps.push_back(entry.gap);
    if (entry.use != nullptr) parts.machines.push_back(entry.use);
  }
  // The overdue list has one entry for a machine of which nothing is recorded; its line names its points.
  for (const service::Gap* gap : parts.gaps) {
    if (gap->kind != service::GapKind::nothing_recorded) continue;
    for (const service::Point& point : list.points) {
      const bool told = std::find(parts.points.begin(), parts.points.end(), &point) != parts.points.end();
      const bool unknown = point.standing == service::Standing::no_record && !point.put_off;
      if (point.machine->key == gap->machine && unknown && !told) parts.points.push_back(&point);
    }
  }
  parts.no_record = take_no_record(list, parts.points);
  const auto beside = gaps_beside(list, parts.no_record);
  std::erase_if(parts.gaps,
                [&](const service::Gap* gap) { return std::find(beside.begin(), beside.end(), gap) == beside.end(); });
  return parts;
}

}  // namespace cli
