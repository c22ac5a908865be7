// Which points of a due list are shown, and which of their limbs.
#include <algorithm>
#include <set>

#include "service/due_list.h"

namespace service {

DueRows rows_of(const DueList& list, const DueShow& show) {
  std::set<std::string_view> unknown;
  for (const Gap& gap : list.gaps) {
    if (gap.kind == GapKind::nothing_recorded) unknown.insert(gap.machine);
  }
  DueRows rows;
  for (const Point& point : list.points) {
    const bool of_unknown = unknown.contains(point.machine->key);
    if (!of_unknown) ++rows.counts[point.standing];
    if (of_unknown && !show.unknown_machines) continue;
    const bool quiet =
        point.standing == Standing::later && point.unknown.empty() && point.measure_again.empty() && !point.put_off;
    if (quiet && !show.later) {
      ++rows.later;
      continue;
    }
    rows.anything_due = rows.anything_due || point.standing != Standing::later;
    if (show.first && rows.points.size() == *show.first) {
      ++rows.left_off;
    } else {
      rows.points.push_back(&point);
    }
  }
  return rows;
}

const LimbStanding* limb_of(const Point& point, LimbKind kind) {
  if (point.ruled_by && point.limbs[*point.ruled_by].kind == kind) return &point.limbs[*point.ruled_by];
  const auto first =
      std::find_if(point.limbs.begin(), point.limbs.end(), [&](const LimbStanding& limb) { return limb.kind == kind; });
  return first == point.limbs.end() ? nullptr : &*first;
}

}  // namespace service
