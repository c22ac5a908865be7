// What is to be minded by whoever goes to a machine, and before a machine goes back to work.
#include "standing/minded.h"

#include <algorithm>

#include "service/due_list.h"
#include "standing/shown.h"

namespace service {

bool sign_was_seen(const Point& point) {
  return std::any_of(point.limbs.begin(), point.limbs.end(),
                     [](const LimbStanding& limb) { return limb.kind == LimbKind::sign && !limb.seen.empty(); });
}

bool is_seen_to_before_work(const Point& point) {
  return sign_was_seen(point) || overdue_heading_of(point) || (never_waits(point) && needs_seeing_to(point));
}

std::vector<std::string> cautions_of(const std::vector<const Point*>& points) {
  std::vector<std::string> all;
  for (const Point* point : points) {
    for (const std::string& caution : point->task->all_cautions) {
      if (std::find(all.begin(), all.end(), caution) == all.end()) all.push_back(caution);
    }
  }
  return all;
}

BeforeWork before_work(const DueList& list, const Machine& machine) {
  BeforeWork before;
  for (const Point& point : list.points) {
    if (point.machine->key != machine.key) continue;
    if (never_waits(point)) {
      if (needs_seeing_to(point)) before.points.push_back(&point);
    } else if (sign_was_seen(point)) {
      before.signs.push_back(&point);
    }
  }
  for (const SeenSign& seen : list.seen) {
    if (seen.machine->key == machine.key) before.seen.push_back(&seen);
  }
  return before;
}

}  // namespace service
