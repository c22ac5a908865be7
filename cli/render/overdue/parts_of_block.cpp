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
  parts.no_record = take_no_record(list, parts.points);
  const auto beside = gaps_beside(list, parts.no_record);
  std::erase_if(parts.gaps,
                [&](const service::Gap* gap) { return std::find(beside.begin(), beside.end(), gap) == beside.end(); });
  return parts;
}

}  // namespace cli
