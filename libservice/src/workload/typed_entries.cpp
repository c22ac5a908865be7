#include "workload/typed_entries.h"

#include <algorithm>

#include "service/minding.h"
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
           end_of(other.wait) == end_of(of.wait);
  });
  if (entry == entries.end()) {
    entry = entries.insert(entry, std::move(of));
  } else {
    entry->measures.insert(entry->measures.end(), of.measures.begin(), of.measures.end());
  }
  entry->points.push_back(&point);
}

// What is at or past its limit, of a point or of one that its service includes, and what no new element of its own task
// puts right.
void add_past_limit(SheetEntry& of, const Point& point) {
  if (puts_in_new(*point.machine, {point.task, nullptr})) return;
  for (const LimbStanding& limb : point.limbs) {
    if (limb.kind == LimbKind::measured && reached(limb)) of.measures.push_back({&point, &limb});
  }
}

// Of a point of the task: what is put in, what is mended by it, and not before when.
SheetEntry entry_of(const SheetTask& task, const Point& point, const std::vector<SeenSign>& seen) {
  SheetEntry of;
  of.puts_in_new = task.label.has_value();
  of.mends = !to_mend(seen, point).empty();
  if (task.check == nullptr) add_past_limit(of, point);
  for (const SheetIncluded& included : task.included) {
    for (const Point* part : included.points) add_past_limit(of, *part);
  }
  of.past_limit = !of.measures.empty();
  for (const SheetWait& wait : task.waits) {
    if (wait.point == &point) of.wait = wait;
  }
  return of;
}

}  // namespace

void add_entries(MachineSheet& page, const std::vector<SeenSign>& seen) {
  for (const SheetTask& task : page.tasks) {
    for (const Point* point : task.points) add_entry(page.entries, *point, entry_of(task, *point, seen));
    for (const Point* point : task.overdue_safety) {
      SheetEntry of;
      of.puts_in_new = puts_in_new(*page.machine, {point->task, nullptr});
      add_past_limit(of, *point);
      of.past_limit = !of.measures.empty();
      add_entry(page.alone, *point, std::move(of));
    }
  }
  for (const SheetLook& look : page.checks_owed) {
    for (const Point* check : look.points) add_entry(page.entries, *check, {});
  }
}

}  // namespace service::load
