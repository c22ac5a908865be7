#include "workload/typed_entries.h"

#include <algorithm>
#include <iterator>

#include "service/minding.h"
#include "service/run_ban.h"
#include "service/snapshot.h"
#include "workload/job_tasks.h"

namespace service::load {
namespace {

// The value that is written down with a service: of the meter that brings it due first.
const Meter* meter_told_with(const Point& point) {
  const LimbStanding* usage = nullptr;
  for (const LimbStanding& limb : point.limbs) {
    if (limb.kind == LimbKind::usage && usage == nullptr) usage = &limb;
  }
  const Meter* meter = usage == nullptr ? nullptr : point.machine->meter(usage->name);
  return meter == nullptr ? point.machine->first_meter() : meter;
}

void add_entry(std::vector<SheetEntry>& entries, const Point& point, SheetEntry of) {
  of.meter = meter_told_with(point);
  of.competent_person = by_competent_person(point);
  auto entry = std::find_if(entries.begin(), entries.end(), [&](const SheetEntry& other) {
    return other.meter == of.meter && other.competent_person == of.competent_person &&
           other.puts_in_new == of.puts_in_new && other.mends == of.mends && other.past_limit == of.past_limit &&
           other.sign_seen == of.sign_seen && other.lifts_ban == of.lifts_ban && end_of(other.wait) == end_of(of.wait);
  });
  if (entry == entries.end()) {
    entry = entries.insert(entry, std::move(of));
  } else {
    entry->measures.insert(entry->measures.end(), of.measures.begin(), of.measures.end());
  }
  entry->points.push_back(&point);
}

// What of a point, or of one that its service includes, forbids to run the machine, and what is at or past its limit
// where no new element of its own task puts that right.
void add_not_renewed(SheetEntry& of, const Point& point) {
  for (const LimbStanding& limb : point.limbs) {
    if (!may_only_be_looked_at(*point.machine, *point.task, limb.kind)) continue;
    if (limb.kind == LimbKind::measured && reached(limb)) of.measures.push_back({&point, &limb});
  }
  of.lifts_ban = of.lifts_ban || forbids_running(point);
  of.past_limit = !of.measures.empty();
}

// Of a point of the task: what is put in, what is mended by it, and not before when.
SheetEntry entry_of(const SheetTask& task, const Point& point, const std::vector<SeenSign>& seen) {
  SheetEntry of;
  of.puts_in_new = task.renews;
  of.mends = !to_mend(seen, point).empty();
  of.sign_seen = task.sign_seen;
  if (task.check == nullptr) add_not_renewed(of, point);
  for (const SheetIncluded& included : task.included) {
    for (const Point* part : included.points) add_not_renewed(of, *part);
  }
  for (const SheetWait& wait : task.waits) {
    if (wait.point == &point) of.wait = wait;
  }
  return of;
}

bool past_limit(const Point& point) {
  SheetEntry of;
  add_not_renewed(of, point);
  return of.past_limit;
}

// It is here for what was found of its task at no position in particular, and another position is at its limit: that
// one was meant, and to write this one down as done would end what was measured of it. A look ends what was found.
bool another_was_meant(const Point& point, const std::vector<SeenSign>& seen, const std::vector<const Point*>& points) {
  if (is_due(point) || point.standing == Standing::coming) return false;
  const auto found = to_mend(seen, point);
  return !found.empty() && std::all_of(found.begin(), found.end(), [&](const SeenSign* one) {
    return std::any_of(points.begin(), points.end(), [&](const Point* other) {
      const auto of_it = to_mend(seen, *other);
      return other != &point && past_limit(*other) && std::find(of_it.begin(), of_it.end(), one) != of_it.end();
    });
  });
}

// Each point of which it was found is written down as done, and is mended by that.
bool mended_by_entries(const MachineSheet& page, const SeenSign& one, const std::vector<SeenSign>& seen,
                       const std::vector<const Point*>& points) {
  bool any = false;
  for (const Point* point : points) {
    const auto found = to_mend(seen, *point);
    if (std::find(found.begin(), found.end(), &one) == found.end()) continue;
    any = true;
    const bool written = std::any_of(page.entries.begin(), page.entries.end(), [&](const SheetEntry& entry) {
      return entry.mends && std::find(entry.points.begin(), entry.points.end(), point) != entry.points.end();
    });
    if (!written) return false;
  }
  return any;
}

}  // namespace

void add_entries(MachineSheet& page, const std::vector<SeenSign>& seen, const std::vector<const Point*>& points) {
  for (const SheetTask& task : page.tasks) {
    for (const Point* point : task.points) {
      if (!another_was_meant(*point, seen, points)) add_entry(page.entries, *point, entry_of(task, *point, seen));
    }
    for (const Point* point : task.overdue_safety) {
      SheetEntry of;
      of.puts_in_new = renews(*page.machine, {point->task, nullptr});
      of.sign_seen = sign_was_seen(*point);
      add_not_renewed(of, *point);
      add_entry(page.alone, *point, std::move(of));
    }
  }
  for (const SheetLook& look : page.checks_owed) {
    for (const Point* check : look.points) add_entry(page.entries, *check, {});
  }
  std::copy_if(page.seen.begin(), page.seen.end(), std::back_inserter(page.to_look_at),
               [&](const SeenSign* one) { return !mended_by_entries(page, *one, seen, points); });
}

}  // namespace service::load
