// Lists of standings: what is due on a day, what cron mails of it, what is to be found out, and what a new fact
// changed.
//
//   DueList list = due_list(snapshot, snapshot.as_of() + std::chrono::days{30});
//   for (const Point* point : rows_of(list, {}).points) ...
//
// A list is a value and can be kept: it keeps its fleet, and what its points and gaps point to is in there. Rows,
// entries, blocks, questions and changes are made from a list and point into it: they live as long as the list stays
// where it is and is not changed. Nothing here fails but where it says so.
//
// Lists are made anew each time and share nothing, so threads may make them side by side; a forecaster may say less of
// itself (`learnt_from`: one thread at a time).
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "service/base.h"
#include "service/first.h"
#include "service/fleet.h"
#include "service/record.h"
#include "service/snapshot.h"
#include "service/standing.h"
#include "service/usage.h"

#pragma GCC visibility push(default)

namespace service {

// --- The due list ------------------------------------------------------------------------------------------

enum class GapKind {
  nothing_recorded,      // no fact about a machine that was not put in service new (bought, or its start is not known)
  no_reading,            // a meter that nobody ever read
  stale,                 // the newest reading is older than stale-after
  contradiction,         // facts about a meter contradict each other, or say more than 24 h a day
  doubtful,              // a value that is possible and yet unlike its meter
  ran_while_not_in_use,  // a meter shows use since its machine was last said to be laid up or out of use
  unlisted,              // facts about a machine that the fleet does not list
  outside_days,    // facts about a machine after it left, before it was put in service new, or while it is to come
  clock,           // today is before the newest fact
  no_machine,      // no machine of the scope is there on that day, so an empty list says nothing
  example_values,  // the values of its schedule are examples
};

std::string_view to_text(GapKind kind);  // `no-reading`

// Something that is not known and makes the answer less than whole.
struct Gap {
  std::string machine;  // empty: the whole fleet
  std::string meter;
  GapKind kind = GapKind::stale;
  std::optional<Day> since;
  std::string say;
  std::vector<FactId> facts;
  std::optional<Amount> used = {};  // of `ran_while_not_in_use`
};

// Those that no machine's own points tell: a clock that is behind the book, facts about machines that the fleet does
// not list, facts on days on which a machine was not there, a scope without a machine on that day.
std::vector<Gap> fleet_gaps(const Snapshot& snapshot);

// Gaps as people read them: what is said of each machine of one schedule comes once for all of them, and last.
struct GapLine {
  const Gap* gap = nullptr;  // the first of them; points into what was given
  int machines = 1;
};

std::vector<GapLine> gap_lines(const std::vector<const Gap*>& gaps);
std::vector<GapLine> gap_lines(const std::vector<Gap>& gaps);

// Whether readings are among them that are hard to believe, or contradict each other: what is added up over their
// machines rests on these.
bool rest_on_doubt(const std::vector<Gap>& gaps);

struct MachineUse {
  const Machine* machine = nullptr;
  UseState state;
};

// What somebody saw of a machine on which no task comes due, and nobody has found good since (`KeptAsSeen`). It is not
// lost: somebody has to look.
struct SeenSign {
  const Machine* machine = nullptr;
  std::string sign;            // in the words of whoever saw it; `brakes found worn`, `oil-heat 110 C`
  DaySpan on;                  // when it was seen first, since it was found good; of a check by month or year alone
  FactId fact;                 // of that
  FactId newest;               // of the time that it was seen last; a look that brought it back is one
  std::string note;            // of the newest look, where somebody looked; else of the newest sighting that has one
  std::optional<Found> found;  // worn or failed, by the newest look; none: nobody looked
  std::optional<Day> looked_on;
  bool safety = false;  // of a task that never waits: whoever looks is named
  // Each time since it was found good, as it was entered; the first is `fact`, of its own day and note.
  std::vector<Sighting> sightings = {};
  // Of the newest look that found it worn or failed: who looked, where that is written, and its fact.
  std::string looked_by = {};
  std::optional<FactId> looked_fact = {};

  // The last time, where it was seen more than once; null: once. Points into it.
  const Sighting* again() const { return sightings.size() < 2 ? nullptr : &sightings.back(); }
};

// Points that a list let go when it was made (`Keep`), as far as anything is told of them.
struct LetGo {
  std::map<Standing, int> counts = {};
  bool needs_doing = false;                       // some of them do (`needs_doing` of the list)
  std::set<std::string, std::less<>> sites = {};  // where they stand; empty: of machines without a site
};

struct DueList {
  std::shared_ptr<const Fleet> fleet;  // what the pointers in the points point into
  Day as_of;
  Day within;                 // the last day of the horizon
  std::vector<Point> points;  // in the order of `ranks_before`, worst first
  std::vector<Gap> gaps;
  std::vector<SeenSign> seen;           // in the order of the fleet file, then of the days
  std::vector<MachineUse> not_in_use;   // machines out of use or laid up, out of use first
  int machines = 0;                     // machines of the scope that are kept on that day
  Scope scope = {};                     // what was asked about
  LetGo let_go = {};                    // none, unless somebody asked for less (`DueAsk::keep`)
  std::optional<Day> newest_fact = {};  // the newest day of the whole record; none: it holds no fact with a day

  const UseState* state_of(const Machine& machine) const;  // null: in use; points into this list
};

// How much is reckoned of what has not come due yet: expected days are what takes the time. What facts decide, and
// today's estimate, is the same each time; so is every day that is reckoned.
enum class Detail {
  standings,   // no days ahead, and so no `coming`, but of points that the overdue list shows
  coming,      // also the days of points that come due within the horizon, or are to be measured again
  everything,  // the days of all points
};

// Which points a list keeps; the others are let go and counted, so that the list of a large fleet is no larger than
// what is told of it. What is no point (gaps, signs, machines not in use) is there in any case, and so is a point that
// forbids to run its machine.
enum class Keep {
  all,
  overdue,      // those that `overdue_list` shows
  not_later,    // those that `rows_of` shows without later points
  to_find_out,  // those that `find_out` asks about, those by which it tells meters, those of which a sign was seen, and
                // what never waits and is late
  forbidding,   // none but those that forbid to run their machine
};

// Points, signs and state of one machine, as a list of its own.
using EachMachine = std::function<void(const DueList& of_machine)>;

struct DueAsk {
  Day within;                       // the last day of the horizon
  std::optional<Day> odds_by = {};  // fills `Point::odds`
  Detail detail = Detail::everything;
  // With `coming`: from which odds of coming due within the horizon on days are reckoned. Even ones or less, else some
  // that come are not called so.
  Probability days_from_odds{0.5};
  std::optional<Day> earlier_by = {};  // with `odds_by`: fills `Point::earlier_odds`
  Keep keep = Keep::all;
  bool gaps_of_machines = true;  // false: for whoever asks which machines nobody may run, and no more
  Progress progress = {};        // of machines
  // Called for each machine of the list as soon as its points are made and before any is let go, machine after machine
  // in no order that means anything: so an answer can be longer than memory. What it throws ends the work.
  EachMachine each = {};
};

// Every service point of the scope on the machines that are kept on that day, `later` and follow-ups included. Without
// a forecaster: what `learnt_from` the snapshot expects.
DueList due_list(const Snapshot& snapshot, const DueAsk& ask, const Forecaster& forecaster);
DueList due_list(const Snapshot& snapshot, const DueAsk& ask);
inline DueList due_list(const Snapshot& snapshot, Day within) { return due_list(snapshot, DueAsk{within}); }

// Overdue, due, no record, coming, later; within one what never waits first, what is put off last, facts before
// estimates, then the earliest due day. What ranks alike stays in the order of the fleet file.
bool ranks_before(const Point& a, const Point& b);
// The same as a number that is smaller for what comes first, and equal for what ranks alike.
std::uint64_t rank_of(const Point& point);

// Nothing known of the machine at all: one line of the list stands for all its points.
bool nothing_known(const DueList& list, const Machine& machine);

// The points without record of a machine, where one line stands for them. Points into the list.
struct NoRecord {
  const Machine* machine = nullptr;
  std::vector<const Point*> points;  // in the order of the list
  bool nothing_recorded = false;     // nor anything else of the machine

  std::vector<const Point*> safety() const;
};

// Takes the points without record out of these, machine by machine. What is put off stays: somebody decided it.
std::vector<NoRecord> take_no_record(const DueList& list, std::vector<const Point*>& points);

// The gaps that such a line does not tell.
std::vector<const Gap*> gaps_beside(const DueList& list, const std::vector<NoRecord>& lines);

// Which points an answer shows, and how many it leaves out.
struct DueRows {
  std::vector<const Point*> points;  // in the order of the list
  std::vector<NoRecord> no_record;   // behind what is due
  std::size_t left_off = 0;          // points cut off behind the first ones of their standing
  std::size_t later = 0;             // left out because they come later
  std::map<Standing, int> counts;    // of all
  bool anything_due = false;         // something but later points is among them
};

struct DueShow {
  // Later points too; else only checks that are owed after a service, and those with something unknown, put off or to
  // be measured again.
  bool later = false;
  bool each_without_record = false;       // each point without record; else a line a machine
  std::optional<std::size_t> first = {};  // only so many of each standing
};

DueRows rows_of(const DueList& list, const DueShow& show);

// What cron mails: in this order, each with its own heading. Empty means that all is well and all is known. Under
// `do_not_run` stands what forbids to run its machine (`run_ban.h`) and is not in the list for another reason: due, not
// overdue.
enum class OverdueHeading { out_of_use, do_not_run, overdue, seen, read_the_meter, find_out, put_off, laid_up };

struct OverdueEntry {
  OverdueHeading heading = OverdueHeading::overdue;
  const Point* point = nullptr;     // or
  const Gap* gap = nullptr;         // or
  const MachineUse* use = nullptr;  // or
  const SeenSign* seen = nullptr;
};

std::string_view to_text(OverdueHeading heading);  // `out-of-use`

std::vector<OverdueEntry> overdue_list(const DueList& list);

// The same, heading by heading; headings without entries are left out.
struct OverdueBlock {
  OverdueHeading heading = OverdueHeading::overdue;
  std::vector<OverdueEntry> entries;
};

std::vector<OverdueBlock> overdue_blocks(const DueList& list);

// True when something needs doing: a point that is due or worse, without a record or with an unknown limb, a gap, a
// sign that nobody answered, or a machine out of use.
bool needs_doing(const DueList& list);

// --- What is to be minded -----------------------------------------------------------------------------------

// The cautions of these points (`Task::all_cautions`), each once.
std::vector<std::string> cautions_of(const std::vector<const Point*>& points);

// A listed sign of the point was seen, and nobody has found it good since.
bool sign_was_seen(const Point& point);

// Due or worse, by estimate too, without record or with something unknown.
inline bool needs_seeing_to(const Point& point) {
  return is_due(point) || point.standing == Standing::no_record || !point.unknown.empty();
}

// What is to be seen to before a machine that stood goes back to work.
struct BeforeWork {
  // Of what never waits: those that need it.
  std::vector<const Point*> points;
  // Of the other tasks: those of which a listed sign was seen, that nobody has found good since.
  std::vector<const Point*> signs;
  std::vector<const SeenSign*> seen;  // signs that nobody has found good since
};

// Points into the list.
BeforeWork before_work(const DueList& list, const Machine& machine);

// --- What is to be found out -------------------------------------------------------------------------------

// One thing that somebody at the machine, or with its papers, may be able to tell.
struct Question {
  FactKind kind = FactKind::service;  // the kind of fact that answers it: reading, service or measurement
  std::string meter;                  // of a reading; of a service: the meter that tells its use, where it has one
  std::string unit;                   // of the meter or of the measurement
  std::string name;                   // of a measurement
  const Point* point = nullptr;       // of a service or measurement
  const Gap* gap = nullptr;           // of a reading: why it is asked for
};

struct MachineQuestions {
  const Machine* machine = nullptr;
  bool nothing_recorded = false;
  bool start_unknown = false;         // the fleet file says neither `in-service` nor `bought`
  std::vector<const SeenSign*> seen;  // that nobody has found good since: whoever goes there looks before it runs
  // Of tasks that may wait: those of which a listed sign was seen that nobody has found good since. Of the others such
  // a sign forbids to run the machine.
  std::vector<const Point*> signs;
  std::vector<Question> questions;  // readings first, then what never waits, then the order of the schedule
};

// By machine in the order of the fleet file; machines of which nothing is to be found out are left out. Points into the
// list.
std::vector<MachineQuestions> find_out(const DueList& list);

// The other machines of the list, without questions: of which something was seen, that nobody may run, that are laid
// up, or whose owner keeps notes. That nothing is asked about them is no all-clear. In the order of the fleet file;
// points into the list.
std::vector<MachineQuestions> told_beside(const DueList& list, const std::vector<MachineQuestions>& asked);

// --- What a new fact changed -------------------------------------------------------------------------------

struct PointChange {
  const Point* before = nullptr;  // null: the point is new
  const Point* after = nullptr;   // null: the point is gone
};

// Points whose standing, estimate mark or fitting differ, and the due day of those reached by facts. An expected day
// that a new reading moves is not a change.
std::vector<PointChange> difference(const DueList& before, const DueList& after);

// Gaps that what was told has ended: nothing was recorded of a machine, a meter was never read or not for long, or its
// use while it stood was asked about, of which less is asked now. Doubts and contradictions are left out, for whoever
// ends one of them says so. In the order of the list before.
std::vector<Gap> ended_gaps(const DueList& before, const DueList& after);

// Of a gap: that any reading ends it, be it right or not.
bool ends_by_reading(GapKind kind);

// A point whose standing is the same, but which the overdue list shows under another heading, or no more, or newly:
// somebody put it off, or its machine was laid up or came back.
struct HeadingChange {
  const Point* point = nullptr;  // of the list after
  std::optional<OverdueHeading> was;
  std::optional<OverdueHeading> is;
};

std::vector<HeadingChange> heading_changes(const DueList& before, const DueList& after);

}  // namespace service

#pragma GCC visibility pop
