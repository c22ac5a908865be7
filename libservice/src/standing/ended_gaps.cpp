// What is known now and was not before.
#include <algorithm>
#include <vector>

#include "service/due_list.h"

namespace service {

bool ends_by_reading(GapKind kind) {
  return kind == GapKind::nothing_recorded || kind == GapKind::no_reading || kind == GapKind::stale;
}

std::vector<Gap> ended_gaps(const DueList& before, const DueList& after) {
  std::vector<Gap> ended;
  for (const Gap& gap : before.gaps) {
    const bool stays = std::any_of(after.gaps.begin(), after.gaps.end(), [&](const Gap& other) {
      return other.kind == gap.kind && other.machine == gap.machine && other.meter == gap.meter;
    });
    if (ends_by_reading(gap.kind) && !stays) ended.push_back(gap);
  }
  return ended;
}

}  // namespace service
