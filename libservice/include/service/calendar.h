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

#include <cstddef>
#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "service/due_list.h"
#include "service/parsed.h"

#pragma GCC visibility push(default)

namespace service {

struct GivenRound;
struct GivenStop;

// Which of two calendars of a fleet is the newer one. Most days move with the day asked about (what is overdue is an
// event of it, and what is expected is expected anew), so both the day and the facts count. A later day has a higher
// number than any of an earlier one, whatever the book; within one day it rises with each fact. That an event moved for
// another reason (a fleet file was edited, a backup put back) it does not tell: `number_events` does.
struct CalendarVersion {
  // The days since 2000 times 50,000, and the facts up to the day asked about (struck ones and strikes too, 49,999 at
  // the most). RFC 5545 has it end at 2,147,483,647, which is reached in 2117.
  std::int64_t sequence = 0;
  std::int64_t changed = 0;  // milliseconds since 1970, UTC: the newest of those facts, or the day's beginning
};

CalendarVersion version_of(const std::vector<Fact>& book, Day as_of);

// Of a calendar that takes the place of one of that number: this version, raised above it where it is not.
CalendarVersion version_after(const CalendarVersion& version, std::int64_t last);

enum class EventKind {
  summary,     // what there is in all, on the day asked about: a calendar that nobody renews is seen to be old
  not_in_use,  // a machine out of use, on the day asked about; one laid up, on the day it is to be back
  point,       // a service point
  no_record,   // the points without record of a machine
  find_out,    // limbs of a point that are not known, beside its event of another day
  seen,        // what somebody saw, and nobody has answered
  gap,         // something else that is not known
  round,       // a round of a week, or a stop of one (rounds_list.h)
};

struct CalendarEvent {
  EventKind kind = EventKind::summary;
  // The same for the same thing, whatever its day: of a point by fleet, machine, task, position and the day of the
  // service from which it counts. Other fleets have others.
  std::string uid;
  Day on;
  // Of the calendar's version, or higher (`number_events`).
  std::int64_t sequence = 0;
  std::int64_t changed = 0;
  std::optional<OverdueHeading> heading = {};  // of an overdue list
  const Point* point = nullptr;                // of `point` and `find_out`
  const MachineUse* use = nullptr;
  const SeenSign* seen = nullptr;
  // Of `not_in_use`: what is to be seen to before it goes back to work, and stands in no other event of that day: what
  // never waits and is not well, signs of other tasks (both `before_work`), and what the overdue list has of it.
  std::vector<const Point*> before_back = {};
  // Of a lay-up with a planned end: what else is due by that day (`wanted_by`), as a season's list has it.
  std::vector<const Point*> due_by_then = {};
  std::vector<const SeenSign*> seen_before_back = {};
  std::optional<GapLine> gap = {};
  std::optional<NoRecord> no_record = {};
  // Of `round`: where in its day it stands, and whose it is: `fitter 550-705`, minutes since midnight.
  std::string hours = {};
  bool cancelled = false;                  // of `round`: it stood in the plan that was kept, and is not made
  const GivenRound* kept_round = nullptr;  // of what is cancelled: that of the kept plan
  const GivenStop* kept_stop = nullptr;    // likewise; null: the round itself
};

// What its first event counts, in this order: of the due list what needs doing or is not known, in lines as people read
// them (a machine without record is one), but what the overdue list has as put off or laid up as that; of the overdue
// list its lines under each heading. Machines that nobody may run are one count of both (`OverdueCounts`), beside what
// is due of them, as in the due list. `coming` and `later` are no part of that, and counted beside it.
enum class Counted {
  not_to_run,
  overdue,
  due,
  seen,
  read_the_meter,
  find_out,
  put_off,
  laid_up,
  coming,
  later,
};

struct CalendarCount {
  Counted what = Counted::overdue;
  std::size_t lines = 0;
  friend bool operator==(const CalendarCount&, const CalendarCount&) = default;
};

struct Calendar {
  std::vector<CalendarEvent> events;  // the summary first; in the order of the list. Points into it
  std::vector<CalendarCount> counts;  // none of them 0; empty: nothing is due, and all is known
  std::vector<CalendarCount> ahead;   // of a due list: what comes, and is in none of `counts`
};

// `shown`: the points that are to be in it, and whose lack of record a line tells.
Calendar due_calendar(const DueList& list, const DueRows& shown, const CalendarVersion& version);

Calendar overdue_calendar(const DueList& list, const CalendarVersion& version);

// --- Under which number each event was handed out -----------------------------------------------------------

struct NumberedEvent {
  Day on;
  std::int64_t sequence = 0;
  std::int64_t changed = 0;
  std::string hours = {};  // as the event's
  friend bool operator==(const NumberedEvent&, const NumberedEvent&) = default;
};

// By uid.
using EventNumbers = std::map<std::string, NumberedEvent, std::less<>>;

// Sees to it that no event falls behind the number under which it was handed out last, and that one which stands on
// another day than then, or at other hours of it, has a higher one and a later stamp. Gives what is to be kept, before
// the calendar is handed out: numbers that nobody saw do no harm. What can no more be fallen behind, for every number
// of this day is higher, is not kept. The same calendar and the same numbers give the same.
EventNumbers number_events(Calendar& calendar, const EventNumbers& before);

// How they are kept: plain lines with a checksum.
std::string to_text(const EventNumbers& numbers);
Parsed<EventNumbers> parse_event_numbers(std::string_view text);

// The name of the file in the fleet's folder.
inline constexpr std::string_view event_numbers_file = ".calendar";

}  // namespace service

#pragma GCC visibility pop
