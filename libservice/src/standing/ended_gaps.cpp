// What is known now and was not before.
#include <algorithm>
#include <vector>

#include "service/due_list.h"

namespace service {

bool ends_by_reading(GapKind kind) {
  return kind == GapKind::nothing_recorded || kind == GapKind::no_reading || kind == GapKind::stale;
}

namespace {

// A meter that was never read, and of which an old reading is known now, is asked about as before; likewise a machine
// of which nothing was known.
bool asks_the_same(const Gap& was, const Gap& is) {
  if (was.machine != is.machine) return false;
  if (!ends_by_reading(was.kind)) return was.kind == is.kind && was.meter == is.meter;
  return ends_by_reading(is.kind) && (was.meter.empty() || was.meter == is.meter);
}

bool is_answered_in_part(const Gap& was, const Gap& is) { return was.used && is.used && *is.used < *was.used; }

}  // namespace

std::vector<Gap> ended_gaps(const DueList& before, const DueList& after) {
  std::vector<Gap> ended;
  for (const Gap& gap : before.gaps) {
    const bool stays = std::any_of(after.gaps.begin(), after.gaps.end(), [&](const Gap& other) {
      return asks_the_same(gap, other) && !is_answered_in_part(gap, other);
    });
    const bool told = ends_by_reading(gap.kind) || gap.kind == GapKind::ran_while_not_in_use;
    if (told && !stays) ended.push_back(gap);
  }
  return ended;
}

}  // namespace service
