// Standings: what is overdue, due, coming or later, and why.
//
// For a usage limb with limit L and known usage u: L - u > 0 is not reached, -grace <= L - u <= 0 is due, beyond that
// overdue. A calendar limb is due on its day and overdue after its day plus grace. All limbs of a task race; a point
// takes its worst limb. `overdue` is said on facts alone: where only the estimate of today's usage reaches L, the
// point is due "by estimate: read the meter".
#pragma once

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "service/base.h"
#include "service/fleet.h"
#include "service/snapshot.h"
#include "service/usage.h"

#pragma GCC visibility push(default)

namespace service {

enum class Standing { overdue, due, coming, later, no_record };  // worst first, `no_record` beside them

std::string_view to_text(Standing standing);  // `no-record`

// True where `a` is the worse standing: overdue, due, no record, coming, later.
bool worse(Standing a, Standing b);

// A day at even odds with its 80 % span, all limbs racing: a calendar limb is certain, a usage limb as its meter's
// forecast has it, a changes limb as its task. Whole days, not before as-of unless facts say that the point is reached;
// a missing day is more than five years away with no calendar limb to name it, or not known. That no service was
// written down since shapes it, and with it the point's `due_on` and `coming`, but never `due` or `overdue`.
struct DueSpan {
  std::optional<Day> p10;
  std::optional<Day> p50;
  std::optional<Day> p90;
};

// --- One limb ----------------------------------------------------------------------------------------------

// `reached` by facts: due or overdue.
enum class LimbState { overdue, due, not_reached, unknown };

// One limb of a point with its arithmetic. Which fields are filled depends on the kind:
//
//   usage     meter, unit, every; known; used (since fitted), left and due_at (by the due point); due_on when reached:
//             the first day on which usage reached due_at; else this limb's own median
//   calendar  span; due_on, left_days
//   changes   name (the task), count (so far) of limit_count; due_on when reached, else the day expected from that task
//   measured  name, unit, limit, above; measured and noticed_on where somebody measured since; due_on when reached
//   sign      signs; seen, noticed_on and due_on where one was seen since
//   season    name, lead_days; due_on, left_days
struct LimbStanding {
  LimbKind kind = LimbKind::usage;
  LimbState state = LimbState::unknown;
  std::string name;
  std::string unit;
  std::optional<Amount> every;
  std::optional<CalendarSpan> span;
  bool until_month_end = false;
  int limit_count = 0;
  Measure limit;
  bool above = true;
  std::vector<std::string> signs;
  int lead_days = 0;

  std::optional<KnownUsage> known;  // of the meter, on the day asked about
  std::optional<Amount> used;
  std::optional<Amount> left;
  std::optional<Amount> due_at;     // usage
  std::optional<Amount> due_shown;  // what the meter now on the machine shows then
  std::optional<Day> counted_from;  // the day from which a calendar limb counts (its anchor)
  std::optional<Day> due_on;
  std::optional<int> left_days;
  std::optional<int> count;
  std::optional<Measure> measured;
  bool other_unit = false;        // somebody measured since, but not in the limit's unit: found out as unknown
  std::string seen;               // the sign
  std::optional<Day> noticed_on;  // the day of the measurement or sign
  std::optional<FactId> fact;     // of the measurement or sign

  std::optional<DueSpan> expected;  // changes limbs that are not reached

  Amount grace;        // usage limbs: how far past still counts as due
  int grace_days = 0;  // calendar, sign and season limbs
  int grace_count = 0;

  bool by_estimate = false;  // not reached by facts, reached by the estimate of today's usage
  bool past_grace_by_estimate = false;
  std::optional<Amount> estimated_used;  // today, where it differs from `used`
};

// Due or overdue by facts.
inline bool reached(const LimbStanding& limb) {
  return limb.state == LimbState::overdue || limb.state == LimbState::due;
}

// Comes due by what somebody sees or measures.
inline bool observed(LimbKind kind) { return kind == LimbKind::sign || kind == LimbKind::measured; }

// The share of its interval that a limb has used, by the estimate where only that has brought it there; for drawing and
// for weighing, nothing is decided by it. Nothing for limbs that have no interval to use up, or where it is not known.
std::optional<double> share_used(const LimbStanding& limb, Day as_of);

// --- One service point -------------------------------------------------------------------------------------

// When the element or fluid now in the machine went in.
struct Fitted {
  DaySpan on;
  std::optional<Amount> at;  // usage of `meter`
  std::string meter;         // the point's first usage limb's, else the machine's first; may be empty
  Basis basis = Basis::unknown;
  std::optional<FactId> fact;  // none: in service new
  std::string task;            // the task recorded; another one where that covers this
  bool year_or_month_only() const { return !on.whole_day(); }
};

struct PutOff {
  std::optional<Day> until;
  std::optional<Amount> at;     // usage
  std::optional<Amount> shown;  // what the meter now on the machine shows then
  std::string unit;             // of both
  std::string by;
  std::string why;
  FactId fact;
};

struct Point {
  const Machine* machine = nullptr;
  const Task* task = nullptr;  // of a follow-up: the task that it follows
  const FollowUp* follow_up = nullptr;
  std::string name;      // `engine-oil`, of a follow-up `engine-oil/check-leaks`
  std::string position;  // empty: none

  Standing standing = Standing::no_record;
  bool by_estimate = false;
  bool past_grace_by_estimate = false;  // due, and past grace but for a reading that proves it
  std::optional<std::size_t> ruled_by;  // index into limbs
  // The one due day, whoever asks: of a point that is reached, the day on which its ruling limb was; by estimate, the
  // day asked about; else the middle of `due_span`. None where nothing can be expected, or was not asked for.
  std::optional<Day> due_on;
  DueSpan due_span;
  std::optional<double> odds;     // 0 to 1, of having come due by the day asked about (`DueAsk::odds_by`)
  std::vector<LimbKind> unknown;  // limbs that cannot be computed and should be found out
  std::optional<Fitted> fitted;
  std::optional<PutOff> put_off;  // in effect today; the standing stays what it is
  std::vector<LimbStanding> limbs;
};

inline bool reached(const Point& point) { return point.ruled_by && reached(point.limbs[*point.ruled_by]); }

// Due or overdue, by facts or by estimate.
inline bool is_due(const Point& point) {
  return point.standing == Standing::overdue || point.standing == Standing::due;
}

// A point by name, where no more of it is told.
struct PointName {
  const Machine* machine = nullptr;
  std::string task;      // `engine-oil`, `engine-oil/check-leaks`
  std::string position;  // empty: none
  friend bool operator==(const PointName&, const PointName&) = default;
};

inline PointName name_of(const Point& point) { return {point.machine, point.name, point.position}; }

std::string label_of(std::string_view task, std::string_view position);  // `engine-oil`, `tyre@front-left`

// --- The due list ------------------------------------------------------------------------------------------

enum class GapKind {
  nothing_recorded,  // no fact about a machine that was not put in service new (bought, or its start is not known)
  no_reading,        // a meter that nobody ever read
  stale,             // the newest reading is older than stale-after
  contradiction,     // facts about a meter contradict each other, or say more than 24 h a day
  unlisted,          // facts about a machine that the fleet does not list
  clock,             // today is before the newest fact
  no_machine,        // no machine of the scope is there on that day, so an empty list says nothing
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
};

struct MachineUse {
  const Machine* machine = nullptr;
  UseState state;
};

struct DueList {
  std::shared_ptr<const Fleet> fleet;  // what the pointers in the points point into
  Day as_of;
  Day within;                 // the last day of the horizon
  std::vector<Point> points;  // worst first, see `ranks_before`
  std::vector<Gap> gaps;
  std::vector<MachineUse> not_in_use;  // machines out of use or laid up, out of use first
  int machines = 0;                    // machines of the scope that are kept on that day

  const UseState* state_of(const Machine& machine) const;  // null: in use
};

// How much is reckoned of what has not come due yet: expected days are what takes the time. What facts decide, and
// today's estimate, is the same each time; so is every day that is reckoned.
enum class Detail {
  standings,   // no days ahead, and so no `coming`, but of points that the overdue list shows
  coming,      // also the days of points that come due within the horizon
  everything,  // the days of all points
};

struct DueAsk {
  Day within;                       // the last day of the horizon
  std::optional<Day> odds_by = {};  // fills `Point::odds`
  Detail detail = Detail::everything;
  double days_from = 0.5;  // with `coming`: the least odds of coming due within the horizon that ask for days
};

// Every service point of the scope, `later` and follow-ups included. Without a forecaster: what `learnt_from` the
// snapshot expects.
DueList due_list(const Snapshot& snapshot, const DueAsk& ask, const Forecaster& forecaster);
DueList due_list(const Snapshot& snapshot, const DueAsk& ask);
inline DueList due_list(const Snapshot& snapshot, Day within) { return due_list(snapshot, DueAsk{within}); }

// Overdue, due (facts before estimates), no record, coming, later; within them the earliest due day, then the order
// of the fleet file.
bool ranks_before(const Point& a, const Point& b);

// Nothing known of the machine at all: one line of the list stands for all its points.
bool nothing_known(const DueList& list, const Machine& machine);

// Which points an answer shows, and how many it leaves out.
struct DueRows {
  std::vector<const Point*> points;  // in the order of the list
  std::size_t left_off = 0;          // cut off behind the first ones that were asked for
  std::size_t later = 0;             // left out because they come later
  std::map<Standing, int> counts;    // of all, but for machines of which nothing is known: one line stands for those
  bool anything_due = false;         // something but later points is among them
};

struct DueShow {
  bool later = false;                     // later points too; else only those with something unknown or put off
  bool unknown_machines = false;          // each point of machines of which nothing is known
  std::optional<std::size_t> first = {};  // only so many
};

DueRows rows_of(const DueList& list, const DueShow& show);

// The limb of a kind that tells most of a point: the ruling one, else the first; null where there is none.
const LimbStanding* limb_of(const Point& point, LimbKind kind);

// The due day lies ahead, and may be another one.
bool is_expected(const Point& point);

// What cron mails: in this order, each with its own heading. Empty means that all is well and all is known.
enum class OverdueHeading { out_of_use, overdue, read_the_meter, find_out, put_off, laid_up };

struct OverdueEntry {
  OverdueHeading heading = OverdueHeading::overdue;
  const Point* point = nullptr;  // or
  const Gap* gap = nullptr;      // or
  const MachineUse* use = nullptr;
};

std::string_view to_text(OverdueHeading heading);  // `out-of-use`

std::vector<OverdueEntry> overdue_list(const DueList& list);

// The same, heading by heading; headings without entries are left out.
struct OverdueBlock {
  OverdueHeading heading = OverdueHeading::overdue;
  std::vector<OverdueEntry> entries;
};

std::vector<OverdueBlock> overdue_blocks(const DueList& list);

// True when something needs doing: a point that is due or worse, without a record or with an unknown limb, a gap, or a
// machine out of use.
bool needs_doing(const DueList& list);

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
  bool start_unknown = false;       // the fleet file says neither `in-service` nor `bought`
  std::vector<Question> questions;  // readings first, then tasks in the order of the schedule
};

// By machine in the order of the fleet file; machines of which nothing is to be found out are left out. Points into the
// list.
std::vector<MachineQuestions> find_out(const DueList& list);

// --- What a new fact changed -------------------------------------------------------------------------------

struct PointChange {
  const Point* before = nullptr;  // null: the point is new
  const Point* after = nullptr;   // null: the point is gone
};

// Points whose standing, estimate mark or fitting differ, and the due day of those reached by facts. An expected day
// that a new reading moves is not a change.
std::vector<PointChange> difference(const DueList& before, const DueList& after);

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
