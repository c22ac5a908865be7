// The season to prepare for: what to do beforehand, what to have ready, what it takes, and what is not known.
//
// Only machines that work in the season are on the list, for on the others nothing stops it: those whose `expect:`
// names it, those that are expected to run in it at least half of what an even year would give them, and those of which
// nobody can tell. Of each of their points two odds decide: that it comes due before the season ends when nothing is
// done, and when it is done just before the season begins.
//
// A plan is a value: it keeps its fleet, and what its pointers point to is in there.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "service/forecast.h"
#include "service/not_to_run.h"
#include "service/reading_doubts.h"
#include "service/workload.h"

#pragma GCC visibility push(default)

namespace service {

// Why something is to be done beforehand: the first of these that holds.
enum class SeasonReason {
  mend,    // it was found worn or failed, and not mended since
  due,     // it is due or overdue
  before,  // it may well come due before the season begins
  helped,  // it may well come due in the season, and doing it early at least halves the odds of that
  safety,  // a safety task, or one for a competent person, that may come due
};

std::string_view to_text(SeasonReason reason);  // `due`

// A point that another one's service includes, and how it stands by itself.
struct SeasonIncluded {
  PointName name;
  Standing standing = Standing::later;
  bool own_row = false;  // it is listed by itself, too
};

// A part that a service takes and that cannot be there by its day.
struct SeasonAwaited {
  std::string part;
  Day from;             // as-of and its lead time
  bool counted = true;  // else nobody said how many there are, and it may be in stock
};

// A service that comes due once more before the season begins: the ordinary round, on no block's list. What it takes is
// needed on its early end.
struct SeasonBetween {
  int round = 2;
  DueSpan due;
};

// Under which heading a row stands, in this order.
enum class SeasonGroup {
  mend,         // found worn or failed, or one that it includes and that has no row of its own
  overdue,      // it, or one that it includes and that has no row of its own
  due,          // likewise
  never_waits,  // for safety, or for a competent person
  rest,
  put_off,  // of the rest
};

std::string_view to_text(SeasonGroup group);  // `never-waits`

// A service to do beforehand, or to have everything ready for.
struct SeasonItem {
  Point point;                              // of a service that comes once more: with the days of that one
  SeasonReason reason = SeasonReason::due;  // of what is to be done beforehand
  Probability odds;                         // of coming due before the season ends, done nothing; to be mended: 1
  Probability odds_before;                  // of coming due before it begins
  // Of coming due before the season ends, done just before it begins; none: a check that comes once, or nothing tells.
  std::optional<Probability> odds_done;
  // Its early end, at the latest the day before the season; of what is due or to be mended the day asked about. Where
  // its machine is laid up on that day, the last one before it is back. Where somebody put it off the end of that,
  // which alone may lie behind the season.
  Day do_by;
  std::optional<double> gives_up;       // the share of its life that is left on that day
  int round = 1;                        // 2: once more, after it was done as said before; 3: ..., of all its services
  std::vector<SeasonBetween> between;   // of what is done beforehand: comes due once more before the season begins
  std::vector<SeasonIncluded> covered;  // points of the block that this one includes
  // What never waits and is due has a row of its own, for it can be done before the service that includes it, which may
  // wait for parts. Its work and parts are in that one's.
  std::optional<PointName> included_in;
  std::vector<const FollowUp*> checks;   // that follow it, or what it includes
  std::vector<SeasonAwaited> waits_for;  // parts
  std::vector<SeenSign> to_mend;         // of it, and of those that it includes and that have no row of their own
  bool safety = false;                   // it, or one that it includes, is a safety task
  bool competent_person = false;         // or one for a competent person
  Standing worst = Standing::later;      // of it and of those that it includes and that have no row of their own
  std::optional<Day> back_on;            // of a machine that is laid up: the day on which it counts as in use again
  bool have_ready = false;  // it is done when it comes due, in the season; do_by is when all is to be there
  Resources resources;
  SeasonGroup group() const;
  bool again() const { return round > 1; }
  // It is to be done before its machine goes back to work.
  bool while_laid_up() const {
    return back_on && do_by < *back_on && (!have_ready || point.due_span.p10.value_or(do_by) < *back_on);
  }
  bool never_waits() const { return safety || competent_person; }
};

// A point that is not likely to come due before the season ends.
struct SeasonRest {
  Point point;
  std::optional<Probability> odds;  // none: it comes due by what somebody sees or measures
};

// A machine that does not work in the season, and how many of its points want looking at all the same.
struct OtherMachine {
  const Machine* machine = nullptr;
  int overdue = 0;
  int due = 0;
  int no_record = 0;
  int unknown = 0;  // something about them cannot be reckoned, none of the above
  int seen = 0;     // signs that nobody has looked at yet, or found good
};

// How much of a part or fluid the services of a block take.
struct SeasonPart {
  std::string key;
  bool fluid = false;
  std::string unit;  // empty: pieces
  PartAmount amount;
};

// A row that counts with the service that includes it (`SeasonItem::included_in`).
struct SeasonCounted {
  PointName name;
  PointName in;
};

struct SeasonSums {
  std::size_t points = 0;                   // services: rows but those that another one includes; also those left off
  std::int64_t labour_minutes = 0;          // of one person: two people count twice
  bool several_people = false;              // some of the work is not for one alone
  std::vector<PointName> no_time;           // tasks that say no `takes`
  std::vector<SeasonCounted> counted_with;  // rows that are not among the points, nor in what follows
  std::size_t never_wait = 0;               // of its points: with a safety task, or one for a competent person
  std::int64_t pieces = 0;                  // of parts
  std::vector<SeasonPart> parts;            // by name, parts first
  std::size_t left_off = 0;                 // points that `keep_first` left off the list, and that these sums hold
};

// A machine that stands all through the season and would work in it. It has no work on the list; so that nobody takes
// that for an all-clear, this is what it would take if somebody said today that it is back. None of it is in any sum or
// order.
struct SeasonAbsent {
  const Machine* machine = nullptr;
  UseState state;
  std::vector<SeasonItem> items;  // to do before the season, then to have ready in it, each in the order of its block
  SeasonSums sums;                // of these
  std::size_t find_out = 0;       // points without record, or with something that cannot be computed
  // What they take that stock does not cover, once what the list takes is bought and used up; of the whole fleet.
  std::vector<PartNeed> orders;
};

struct SeasonAsk {
  const Season* season = nullptr;  // of the snapshot's fleet; never null when asked
  std::optional<int> year = {};    // of the season's first day
  Probability threshold{0.2};      // odds from which a point is listed
};

struct SeasonPlan {
  std::shared_ptr<const Fleet> fleet;
  const Season* season = nullptr;
  Day as_of;
  Day from;
  Day to;
  Scope scope;  // what was asked about
  Probability threshold{0.2};
  // Overdue, due, the others; within these safety first, what is put off last, then by the day to do it by, by machine.
  std::vector<SeasonItem> beforehand;
  std::vector<SeasonItem> have_ready;  // comes due in the season all the same; in the same order
  // What would stand in one of these two, but somebody put it off beyond the season's end: in no sums, and no parts of
  // it are ordered. In the same order; its day is the one on which it ends to be put off.
  std::vector<SeasonItem> put_off;
  std::vector<SeasonRest> not_before_end;  // the likeliest first; under 1 % by machine
  std::vector<Point> find_out;             // no record, or a limb that cannot be computed, or nothing expected
  std::size_t find_out_never_wait = 0;  // of these: safety tasks and those for a competent person that no block lists
  std::vector<Gap> gaps;
  ReadingDoubts doubts;                // on which rows and orders rest
  std::vector<OddUse> look_again;      // meters of those that work in it: odds and days rest on them
  std::vector<SeenSign> seen;          // of all machines
  std::vector<MachineUse> not_in_use;  // those that are laid up and back before its end, too
  NotToRun not_to_run;                 // whether they work in it or not
  std::vector<OtherMachine> others;    // that do not work in it, in the order of the fleet file
  std::size_t at_work = 0;             // machines that do
  std::vector<SeasonAbsent> absent;    // that would, but stand throughout, in the order of the fleet file
  SeasonSums before_sums;              // of `beforehand`
  SeasonSums ready_sums;               // of `have_ready`
  // That both take, held against stock together with all that other work takes before the season begins: as
  // `parts_before` lists them.
  std::vector<PartNeed> parts;
  std::size_t left_off = 0;  // points that `keep_first` left off
  bool under_way() const { return from <= as_of; }
};

// The season's year is that of its first day; without one, the season under way or the next. Fails with usage where
// that season is over on that day, or ends more than `horizon_months` after it.
SeasonDays season_days(const Season& season, std::optional<int> year, Day as_of);

// The list of that season. Like parts_list it needs all facts of the record, and fails as it and `season_days` do.
SeasonPlan season_plan(const Snapshot& snapshot, const SeasonAsk& ask, const Forecaster& forecaster);

// On so many days of the season a machine that is not in use is not there: all of them where it stands throughout.
int days_missed(const SeasonPlan& plan, const UseState& state);

// Only the first of what to do beforehand, of what to have ready, of what is put off, and of the rest.
void keep_first(SeasonPlan& plan, std::size_t first);

// The parts of that list, the same needs, days and orders, and the parts that only other work takes before the season
// begins (under way: before it ends): services of machines that do not work in it, as `parts_list` counts them, and
// rounds that come in between. Stock is shared out over all of it. Fails as `season_plan` does.
PartsList parts_before(const Snapshot& snapshot, const SeasonAsk& ask, const Forecaster& forecaster);

}  // namespace service

#pragma GCC visibility pop
