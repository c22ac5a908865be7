// Standings: what is overdue, due, coming or later, and why.
//
// For a usage limb with limit L and known usage u: L - u > 0 is not reached, -grace <= L - u <= 0 is due, beyond that
// overdue. A calendar limb is due on its day and overdue after its day plus grace. All limbs of a task race; a point
// takes its worst limb. `overdue` is said on facts alone: where only the estimate of today's usage reaches L, the
// point is due "by estimate: read the meter".
//
// Here are limbs and points, as due_list.h makes them; all are values. A Point refers to its machine and task in the
// fleet, which whoever made it keeps (a DueList does). Amounts are in the unit of their meter.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "service/base.h"
#include "service/fleet.h"
#include "service/record.h"
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
// written down since shapes it, and with it the point's `due_on` and `coming`, but never `due` or `overdue`. What
// somebody may see or measure has no odds: it can bring a point due sooner than all of these days (`Point::sooner_if`).
struct DueSpan {
  std::optional<Day> p10;
  std::optional<Day> p50;
  std::optional<Day> p90;
};

// --- One limb ----------------------------------------------------------------------------------------------

// `reached` by facts: due or overdue.
enum class LimbState { overdue, due, not_reached, unknown };

// Somebody went and saw what a sign was about.
struct SignLook {
  Day on;
  Found found = Found::good;
  std::string by;
  std::string note;
  FactId fact;
};

// One time that something was seen.
struct Sighting {
  DaySpan on;
  FactId fact;
  std::string note;
  friend bool operator==(const Sighting&, const Sighting&) = default;
};

// A sign that was seen since the fitting, and the looks at it: a good one answers it. A look that found it worn or
// failed where nobody had seen it before saw it.
struct NoticedSign {
  std::string name;
  // Each time that it was seen before it was answered, oldest first; never empty. Of one that a look saw the first is
  // that look, without a note: what it found is the look's word.
  std::vector<Sighting> sightings;
  std::vector<SignLook> looks = {};  // oldest first

  bool answered() const { return !looks.empty() && looks.back().found == Found::good; }
  const Sighting& first() const { return sightings.front(); }
  // The last time, where it was seen more than once; null: once. Points into it.
  const Sighting* again() const { return sightings.size() < 2 ? nullptr : &sightings.back(); }
  // Of the newest look, where somebody looked; else of the newest sighting that has one.
  const std::string& note() const;
};

// One limb of a point with its arithmetic. Which fields are filled depends on the kind:
//
//   usage     meter, unit, every; known; fitted_at, used (since fitted); counted_at, left, due_at (by the due point);
//             due_on when reached: the first day on which usage reached due_at; else this limb's own median
//   calendar  span; due_on, left_days
//   changes   name (the task), count (so far, by these `changes`) of limit_count; due_on when reached, else the day
//             expected from that task
//   measured  name, unit, limit, above; counted_from; measured and noticed_on where somebody measured since; due_on
//             when reached
//   sign      signs; counted_from; noticed: all that were seen since; seen, noticed_on and due_on where one was seen
//             since and not found good; found and looked_on where somebody looked and found it worn or failed
//   season    name, lead_days; due_on, left_days
struct LimbStanding {
  LimbKind kind = LimbKind::usage;
  LimbState state = LimbState::unknown;
  std::string name;
  std::string unit;
  std::optional<Amount> every;
  std::optional<CalendarSpan> span;
  bool until_month_end = false;
  bool above = true;
  int limit_count = 0;
  Measure limit;
  std::vector<std::string> signs;
  int lead_days = 0;
  bool other_unit = false;  // somebody measured since, but not in the limit's unit: found out as unknown

  std::optional<KnownUsage> known;   // of the meter, on the day asked about
  std::optional<Amount> fitted_at;   // usage
  std::optional<Amount> counted_at;  // usage from which the interval counts: at the fitting, or its due point then
  std::optional<Amount> used;
  std::optional<Amount> left;
  std::optional<Amount> due_at;     // usage
  std::optional<Amount> due_shown;  // what the meter now on the machine shows then
  std::optional<Day> counted_from;  // the day from which a calendar limb counts, signs and measurements are judged
  std::optional<Day> chain_from;    // where its chain of months began, if that is another day of the month (a 31st)
  std::optional<Day> due_on;
  std::optional<int> left_days;
  std::optional<int> count;
  std::vector<FactId> changes;  // the counted services, oldest first
  std::optional<Measure> measured;
  std::string seen;               // the sign
  std::optional<Day> noticed_on;  // the day of the measurement or sign
  std::optional<FactId> fact;     // of the measurement or sign
  std::optional<Found> found;     // what a look at the sign found
  std::optional<Day> looked_on;
  std::vector<NoticedSign> noticed;  // oldest first

  // Of a sign: that of `seen`, the first that no look found good; null: none. Points into it.
  const NoticedSign* open_sign() const;

  std::optional<DueSpan> expected;  // changes limbs that are not reached

  Amount grace;        // usage limbs: how far past still counts as due
  int grace_days = 0;  // calendar, sign and season limbs
  int grace_count = 0;

  bool by_estimate = false;              // not reached by facts, reached by the estimate of today's usage
  bool past_grace_by_estimate = false;   // not overdue by facts, reached or not, and past grace by that estimate
  std::optional<Amount> estimated_used;  // today, where that differs from `used`
  std::optional<Amount> estimated_left;  // by that estimate
  bool unforeseen = false;  // of a limb that counts use: nothing can be said of it ahead, in answers that ask for days
};

struct Point;

// Where the fitting has no value and was after the meter's newest reading (`Basis::last_known`): the day of that
// reading, or of the start that stands for one. Use counts from there, so today's estimate holds what was used before
// the fitting too, and its figure has to say so. None otherwise, and where there is no estimate.
std::optional<Day> estimated_from(const LimbStanding& limb, const Point& point);

// Due or overdue by facts.
inline bool reached(const LimbStanding& limb) {
  return limb.state == LimbState::overdue || limb.state == LimbState::due;
}

// Comes due by what somebody sees or measures.
inline bool observed(LimbKind kind) { return kind == LimbKind::sign || kind == LimbKind::measured; }

// The share of its interval that a limb has used by what is known, over 1 past its due point. For drawing and for
// weighing, nothing is decided by it. Nothing for limbs that have no interval to use up, or where it is not known.
std::optional<double> share_used(const LimbStanding& limb, Day as_of);

// The same by today's estimate of use, where that is more than what is known.
std::optional<double> share_estimated(const LimbStanding& limb);

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
  std::string meter;            // of both; empty: it ends by a day alone
  std::string unit;             // likewise
  std::string by;
  std::string why;
  FactId fact;
  bool by_estimate = false;  // that use is reached by the estimate of today's: a reading would end it
};

struct Point {
  const Machine* machine = nullptr;
  const Task* task = nullptr;  // of a follow-up: the task that it follows
  const FollowUp* follow_up = nullptr;
  std::string name;      // `engine-oil`, of a follow-up `engine-oil/check-leaks`
  std::string position;  // empty: none

  Standing standing = Standing::no_record;
  bool by_estimate = false;
  bool past_grace_by_estimate = false;  // due, by facts or by estimate, and past grace but for a reading that proves it
  std::optional<std::size_t> ruled_by;  // index into limbs
  // The one due day, whoever asks: of a point that is reached, the day on which its ruling limb was; by estimate, the
  // day asked about; else the middle of `due_span`. None where nothing can be expected, or was not asked for.
  std::optional<Day> due_on;
  DueSpan due_span;
  std::optional<Probability> odds;          // of having come due by the day asked about (`DueAsk::odds_by`)
  std::optional<Probability> earlier_odds;  // the same by an earlier day (`DueAsk::earlier_by`)
  std::vector<LimbKind> unknown;            // limbs that cannot be computed and should be found out
  // Signs, and names of what is measured, that would bring it due sooner than its other limbs do: what nobody can know
  // beforehand. Of points that are not due.
  std::vector<std::string> sooner_if;
  std::vector<std::string> measure_again;  // what was measured, and lies within a fifth of its limit
  std::optional<Fitted> fitted;
  std::optional<PutOff> put_off;  // in effect today; the standing stays what it is
  // It counts use by a meter whose newest values are hard to believe, or contradict each other: its days and figures
  // may change with them.
  bool doubtful = false;
  bool checks_not_asked = false;  // its task has checks, and the last service was told of later: nobody owes them
  std::vector<LimbStanding> limbs;
};

// A check that follows a task for safety is for safety itself; an examination is the task alone.
inline bool is_safety(const Point& point) { return point.task->safety; }

// Of work for safety that is done on that day, after its due day: nobody uses the machine from the due day on, until it
// is done.
inline bool keep_out_of_use(const Point& point, Day done_on) {
  return is_safety(point) && point.due_on && done_on > *point.due_on;
}
inline bool by_competent_person(const Point& point) {
  return point.task->competent_person && point.follow_up == nullptr;
}

// Of these it is never said that they can wait: they come first, and nobody puts them off.
inline bool never_waits(const Point& point) { return never_waits(*point.task, point.follow_up); }

// What is done, as the schedule says it (`do:`).
inline const std::string& doing_of(const Point& point) {
  return point.follow_up != nullptr ? point.follow_up->doing : point.task->doing;
}

inline bool reached(const Point& point) { return point.ruled_by && reached(point.limbs[*point.ruled_by]); }

// Due or overdue, by facts or by estimate.
inline bool is_due(const Point& point) {
  return point.standing == Standing::overdue || point.standing == Standing::due;
}

// The day by which a point is done where nothing else decides: of what is due the day asked about, else the early end
// of its span. Nothing where nobody can tell.
inline std::optional<Day> wanted_by(const Point& point, Day as_of) {
  return is_due(point) ? std::optional(as_of) : point.due_span.p10;
}

// A point by name, where no more of it is told.
struct PointName {
  const Machine* machine = nullptr;
  std::string task;      // `engine-oil`, `engine-oil/check-leaks`
  std::string position;  // empty: none
  bool safety = false;
  bool competent_person = false;
  friend bool operator==(const PointName&, const PointName&) = default;
};

inline PointName name_of(const Point& point) {
  return {point.machine, point.name, point.position, is_safety(point), by_competent_person(point)};
}

std::string point_label(std::string_view task, std::string_view position);  // `engine-oil`, `tyre@front-left`

// The limb of a kind that tells most of a point: the ruling one, else the first; null where there is none. Points into
// the point.
const LimbStanding* limb_of(const Point& point, LimbKind kind);

// The due day lies ahead, and may be another one.
bool is_expected(const Point& point);

// What can be said of the day on which a point comes due.
enum class DayKind {
  reached,    // it is due
  certain,    // a calendar limb names it, and nothing can come sooner
  at_latest,  // the same, but use, a sign or a measurement may bring it sooner, and nothing can be said of that
  span,       // p10 to p90; one day where use brings it sooner in less than one case of ten
  beyond,     // p10 to beyond five years
};

// Both of a point whose days were reckoned (`Detail`).
DayKind day_kind(const Point& point);
bool unforeseen(const Point& point);  // it counts use or changes of which nothing can be said ahead

}  // namespace service

#pragma GCC visibility pop
