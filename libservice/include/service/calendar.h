// The due list and the overdue list as events of a calendar: which there are, on which day, and under which names, so
// that a day that moved moves its event.
//
//   DueList list = due_list(snapshot, within);
//   Calendar calendar = due_calendar(list, rows_of(list, {true, false}), version_of(record.facts(), list.as_of));
//   for (const CalendarEvent& event : calendar.events) ...
//
// What needs doing is an event of the day asked about, whenever it came due: a day that is over is looked at by nobody.
// All else is an event of the day on which it comes due. What has no day and needs no doing has no event.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "service/due_list.h"

#pragma GCC visibility push(default)

namespace service {

// Which of two calendars of a fleet is the newer one. Most days move with the day asked about (what is overdue is an
// event of it, and what is expected is expected anew), so both the day and the facts count: neither number ever falls
// as days go by and facts join, and `sequence` rises with each.
struct CalendarVersion {
  std::int64_t sequence =
      0;                     // the days since 2000 and the facts up to the day asked about, struck ones and strikes too
  std::int64_t changed = 0;  // milliseconds since 1970, UTC: the newest of those facts, or the day's beginning
};

CalendarVersion version_of(const std::vector<Fact>& book, Day as_of);

enum class EventKind {
  summary,     // what there is in all, on the day asked about: a calendar that nobody renews is seen to be old
  not_in_use,  // a machine out of use, on the day asked about; one laid up, on the day it is to be back
  point,       // a service point
  no_record,   // the points without record of a machine
  find_out,    // limbs of a point that are not known, beside its event of another day
  seen,        // what somebody saw, and nobody has answered
  gap,         // something else that is not known
};

struct CalendarEvent {
  EventKind kind = EventKind::summary;
  // The same for the same thing, whatever its day: of a point by fleet, machine, task, position and the day of the
  // service from which it counts. Other fleets have others.
  std::string uid;
  Day on;
  std::optional<OverdueHeading> heading = {};  // of an overdue list
  const Point* point = nullptr;                // of `point` and `find_out`
  const MachineUse* use = nullptr;
  const SeenSign* seen = nullptr;
  std::optional<GapLine> gap = {};
  std::optional<NoRecord> no_record = {};
};

struct Calendar {
  CalendarVersion version;
  std::vector<CalendarEvent> events;  // the summary first; in the order of the list. Points into it
};

// `shown`: the points that are to be in it, and whose lack of record a line tells.
Calendar due_calendar(const DueList& list, const DueRows& shown, const CalendarVersion& version);

Calendar overdue_calendar(const DueList& list, const CalendarVersion& version);

}  // namespace service

#pragma GCC visibility pop
