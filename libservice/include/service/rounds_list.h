// A plan of a week as it is told: the whole of it, or what is one site's own; with what each visit takes along, what is
// to be minded there, and what is not known.
//
//   RoundsList list = rounds_list(plan_rounds(std::move(week)));
//   hold_against_stock(list, parts_list(snapshot, list.week().to, forecaster));
//   for (const Round& round : list.plan.rounds) ...
//
// A value that keeps its plan; pointers in it point into what that plan keeps, and live as long as it does.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "service/calendar.h"
#include "service/not_to_run.h"
#include "service/planned_load.h"
#include "service/rounds.h"
#include "service/waiting_to_mend.h"
#include "service/workload.h"

#pragma GCC visibility push(default)

namespace service {

// What the work of a visit takes, whatever is on board already.
struct VisitLoad {
  std::vector<std::pair<std::string, PartAmount>> parts;  // in the order of names
  std::vector<std::pair<std::string, Quantity>> fluids;   // likewise
};

VisitLoad load_of(const Visit& visit);

// What is to be minded at a visit: the cautions of its work; of a call to a machine, and of what somebody saw there and
// nobody has found good, those of all that it may be about. Each once, what is worst first.
std::vector<std::string> cautions_of(const DueList& list, const Visit& visit);

// What was seen of the machine of a visit, and nobody has found good. Points into the list.
std::vector<const SeenSign*> seen_at(const DueList& list, const Visit& visit);

// Of a visit to a machine that nobody runs before something is mended (`run_ban.h`).
bool forbids_running(const DueList& list, const Visit& visit);

// Of a visit that is not made: it is work for safety, so nobody uses its machine, or what a call to a site is about,
// until it is done.
inline bool keep_out_of_use(const Visit& visit) { return visit.safety; }

// Of a visit that is made: it is a call for safety, so nobody uses what that is about until then. A call has no due
// day: whoever makes it knows of it.
inline bool keep_out_until_made(const Visit& visit) { return visit.call != nullptr && visit.safety; }

// Of a visit that is made on that day: its work for safety that is due before, so that nobody uses the machine until
// then.
std::vector<const Point*> keep_out_of_use(const Visit& visit, Day on);

// Whether the machine of a visit that is made on that day is laid up or out of use then, and since when. Null: it is in
// use, or there is none. No day: today, of a visit that is not made.
const MachineUse* use_at(const DueList& list, const Visit& visit, std::optional<Day> on = {});

// Of a visit that is made on that day: its machine is laid up today, and counts as back by then. Null: likewise.
const MachineUse* lay_up_over_at(const DueList& list, const Visit& visit, Day on);

// A part or fluid that stops of a plan take and that stock does not cover, as it is used up in the order of the plan.
struct ShortPart {
  std::string key;
  std::string unit;
  PartAmount short_by;       // of all these stops
  Day short_on;              // of the first of them that does not get all of it
  std::optional<Day> there;  // when it can be there if it is ordered on the day asked about; none: nobody knows
};

struct RoundsList {
  // The rounds and rows that are told. Figures of rounds, and all sums, are those of the whole week.
  RoundsPlan plan;
  const Site* site = nullptr;  // what it is about; null: the whole week
  std::vector<const Gap*> gaps;
  std::vector<const SeenSign*> seen;
  std::vector<const MachineUse*> not_in_use;  // out of use first
  std::vector<WaitsToMend> to_mend;           // of `seen`; not planned by itself
  NotToRun not_to_run;                        // with a visit or without
  // Of every stop of the week, in the order of the plan; with what else is taken from stock.
  std::vector<PlannedLoad> loads;
  bool carried = false;                // a crew of a round that is told always carries parts: see `Round::fills_up`
  std::vector<ShortPart> short_parts;  // that stops which are told lack; by key
  std::size_t left_off = 0;            // by `keep_first`

  const Week& week() const { return plan.week; }
};

RoundsList rounds_list(RoundsPlan plan, const Site* site = nullptr);

// What waits to be mended on the machine of a stop; and where the stop brings its round to the site first, on the
// machines there at which the round does not stop. These and the next point into the list.
std::vector<const WaitsToMend*> waiting_at(const RoundsList& list, const Round& round, const RoundStop& stop);

// What waits where no round goes. What is left of `seen` when all that waits to be mended is told by itself.
std::vector<const WaitsToMend*> waiting_elsewhere(const RoundsList& list);
std::vector<const SeenSign*> seen_beside_mending(const RoundsList& list);

// What is left of what was seen of the machine of a visit: somebody has to look before it runs.
std::vector<const SeenSign*> to_look_at(const RoundsList& list, const Visit& visit);

// Tells which of what the rounds load stock does not cover. `parts`: what the fleet needs, at least to the last day up
// to which work is planned.
void hold_against_stock(RoundsList& list, const PartsList& parts);

// What rounds of the plan that was kept took before the week and stock does not show: by work that the book does not
// have, or of what was never counted. It is taken from stock before anything else.
VisitLoad taken_before(const RoundsList& list);

// Of what is taken as done, and not in the book: what of its parts and fluids was not in stock for it, so that it may
// not have been done whole. Nothing of what was counted since: nobody knows what was there then.
std::vector<PartLack> short_then(const RoundsList& list, const NotInBook& one);

// What one stop lacks, and what one round has to load and does not find.
std::vector<PartLack> lacks_of(const RoundsList& list, const RoundStop& stop);
std::vector<PartLack> lacks_of(const RoundsList& list, const Round& round);

// Only the first of what is not this week and not planned, and the first machines of what is without record or not
// wholly known. Rounds, work for safety and changes are never cut.
void keep_first(RoundsList& list, std::size_t first);

// Something is not this week, not planned, without record, not in the book or a call that is still listed, not known or
// not looked at, or a machine is out of use. Work that has its place is no reason.
bool needs_doing(const RoundsList& list);

// The name of the event of a visit (`CalendarEvent::uid`): of what it is about, and for work that is due of the oldest
// day from which that counts, so that a visit which moves keeps it.
std::string event_uid(const Week& week, const Visit& visit);

// The version of a plan's calendar: of one made of a plan that was kept above that plan's, for visits may have moved on
// the same day and by the same facts. A plan says it (`GivenPlan::sequence`), so that the next one can be above it.
CalendarVersion version_of(const RoundsList& list, const CalendarVersion& version);

// The events of a plan: first the week's own, on the day asked about, then each round and its stops in the order of the
// list; of a site stops alone. A round is named by crew and day, a stop by `event_uid`. Last, as cancelled, rounds and
// stops of the plan that was kept, from the first day of the week on, that have no event of their name any more:
// whoever took that calendar over still has them. A stop whose plan does not say its name, and that is no visit of the
// week either, cannot be named.
Calendar rounds_calendar(const RoundsList& list, const CalendarVersion& version);

// The number that a plan is to say of its calendar (`GivenPlan::sequence`), once that is numbered by what was handed
// out before (`number_events`): the highest of its events, for one of them may have been raised within the day.
std::int64_t sequence_of(const Calendar& calendar);

}  // namespace service

#pragma GCC visibility pop
