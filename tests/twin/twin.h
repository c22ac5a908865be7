// The twin: a second, deliberately plain answer to the question "what is the standing of each service point, by
// facts alone?". It exists to disagree. It shares no code and no formula with the software it judges; it walks
// days one by one, counts and compares. Where the two differ, one of them (or the rule) is wrong.
//
// Out of its reach, on purpose: how a forecast is made. A point that no fact has brought to its due point is
// `unreached`, whether the software calls it coming, later, or due by estimate. What an estimate of today's usage
// means, where somebody gives one, is within its reach (C47).
//
// ---------------------------------------------------------------------------------------------------------------
// Choices. The written rules are silent, or bear two honest readings, at the following places. Each line says what
// the twin does and why; a difference at one of these is a question for the rule, not yet a fault of either side.
//
// Limbs and how they replace each other
//  C1  A replacing limb (`first`, `in`, `change`) that matches no written limb is added at the end of the list:
//      there is nothing to replace, and dropping what the user wrote would hide a limb.
//  C2  A measured or a season limb replaces only the one of the same name (what is not named stays). A calendar
//      limb replaces the calendar limb whatever its unit; a list of signs replaces the list.
//  C3  `change` with `first`: its limbs replace those of the task's `first`, limb by limb; the rest of the task's
//      `first` stays. (Read the other way, the whole `first` would be exchanged.)
//  C4  Running-in is the interval from the in-service day of a new machine to the first service. A bought machine,
//      or one with neither date, is never running in.
//  C5  Several matching conditions: decided limb by limb (each meter, each named task, the calendar limb). Measured:
//      the limit that is reached sooner; season: the longer lead; signs: the lists together.
//  C6  "Counted from the same day" for conditions in different units: the day on which the interval in question
//      starts (for a continued chain the unclamped previous due day of the chain counted from its anchor).
//
// Where the next interval starts
//  C7  `counts-from` moves usage and calendar limbs only. A changes limb counts days after the day of fitting,
//      as its own rule says; measured, sign and season limbs have no point to count from.
//  C8  A service whose usage is unknown leaves the usage limb unknown; the next service with a known usage starts
//      the chain afresh from when it was done.
//  C9  The grace that decides whether a service counts as on the due point is that of the interval that ended
//      there (of the running-in interval for the first service of a new machine).
//  C10 A chain in months goes on counting from its anchor across the change from `first` to `every`, and across
//      months and years alike. Where the unit changes between days/weeks and months/years, the chain takes its
//      last due day (before any running to the month's end) as the new anchor.
//  C11 `until: month-end`: the due point is the last day of the month, for comparing a service with it, for
//      "earlier", and for "the next due day of the chain has been reached". The chain itself goes on from the day
//      before running to the month's end. It applies to days and weeks too (any calendar limb).
//  C12 `earlier`, done exactly on the due point: the chain goes on.
//
// Grace
//  C13 Grace named for one unit leaves the other limbs with the fleet's default. A percentage on the task speaks
//      for all its limbs: sign and season limbs then have none, even where the fleet's default names days.
//  C14 `hours` in grace means every meter in h (`hours` in an interval: the machine's first meter in h).
//  C15 `days` in grace is for calendar, sign and season limbs.
//  C16 Percent grace of a usage limb is cut, not rounded, to a hundredth: that is what comparing exactly does.
//  C17 A measured limb never has grace.
//  C18 A follow-up takes the fleet's default grace where that is in percent, and else none; never the task's (they
//      are service points of their own, and ten hours of grace for an oil change would swamp a one-hour check). It is
//      without grace, and cannot be put off, where its task is `safety`. It counts from done, and has no month-end.
//      A check after an examination is anybody's: it has that grace, and can be put off.
//  C18a The fleet's default grace is not for signs, nor for any limb of a task for a competent person: these have what
//      the task itself names.
//
// What is known
//  C19 A meter change is itself a known value of the meter on its day (the old meter's last).
//  C20 The start of a machine (in service, bought) comes before every fact of that day.
//  C21 A partial date is there as soon as its first day is not after the as-of day, even if its last day is.
//  C22 A partial-date service with a value does not say what the meter shows today; with no other value the usage
//      limb is unknown. Its value belongs to the meter that was fitted on the first day of its span.
//  C23 Several services on a day: the last entered stands for all. Services are on the same day when the first
//      days of their spans are equal. If the last entered has no value, it takes that day's value.
//  C24 A strike has no day: it holds on every as-of day. A strike that is itself struck has no effect.
//  C25 Bought: the value is that of the first meter; of the other meters nothing is known from it.
//  C26 A value lower than the one before (possible only after merging) does not lower the usage.
//
// Standing
//  C27 A machine with neither date, and no service: a sign or a measurement is judged from the beginning of the
//      record, as for a bought machine from the day it was bought. To ignore it would be a false all-clear.
//  C28 No service and not new: usage, calendar, changes and season limbs are all unknown, and listed as such.
//      (A season could be judged without a service; "the other limbs stay unknown" is taken at its word.)
//  C29 "All usage and calendar limbs unknown" is not said of a task that has none: a fitted point with only signs,
//      measurements, changes or seasons is unreached, not no-record.
//  C30 A value that nobody measured since fitting is listed as unknown only where it is the one and only limb of the
//      point; a sign that nobody saw never is. A sign beside a measurement, both silent, are both quiet.
//  C31 The due day of a reached point is that of the limb that rules. Ties after worst, earliest due day and usage:
//      the order in which the limbs are written.
//  C32 Measured: the due day is the day of the latest measurement. Sign: the first day a listed sign was seen since
//      fitting.
//  C33 Season: a service serves the first season that ends on or after its day (on the season's last day it has not
//      ended yet). A season that was missed keeps the point overdue until a service, also after that season's end.
//      The in-service day of a new machine serves like a service. 29 February in a season is 28 in a common year.
//  C34 Changes: the due day is that of the n-th day counted. A change on the day of fitting is not after it. Days are
//      the first days of the services' spans.
//  C35 due_on of a reached usage limb: the first day whose (rounded) interpolated usage reached the due point.
//  C36 `fitted.at`: "first usage limb as written" is the first usage limb of the interval that now runs, in the
//      order of `every`, with limbs that were added behind.
//
// Covers, positions, follow-ups, putting off, states
//  C37 A step of `covers` from an ordinary task to one for a competent person has no effect, and nothing is reached
//      through it, even where the chain starts at a competent person's task.
//  C38 A service of a covering task at a position covers the same position; a covered task without positions is
//      done with it at any position; a covered task with other positions is not touched.
//  C39 A measurement or a putting off that names no position is of all positions. A task without positions takes a
//      measurement of any position.
//  C40 A follow-up exists from the last service of its task (covered counts) until its own check was done after it;
//      the order of facts on a day is the order of entry. In service new is not a service: it owes no check.
//      "Told of later owes no check, unless its task is safety": its task is that of the check (a covered one too), and
//      of several services on the day of the last one, one that was not told of later is enough to owe it.
//  C41 Only the last putting off counts, even where an earlier one would run longer. It is in effect while the
//      as-of day is before `until` and the known usage is below `at` (with no known usage it is not). The meter of
//      `at` is the one of `fitted.at`. A putting off of a `safety` task, or of one for a competent person, has no
//      effect.
//  C42 From its `left` day on a machine has no points.
//  C43 Out of use holds until `back`, also if the machine is laid up after it. Laid up holds until `back` or until
//      its `until` day, that day excluded.
//  C45 A look that finds a listed sign good answers it: of that sign, what was seen before the look, in the order of
//      entry on a day, is as if nobody had seen it. A look that finds it worn or failed sees it, that day, where nobody
//      had; else it changes no standing.
//  C46 Kept as seen, until a look of that name finds it good: a sign that no task lists, by its name; a measurement of
//      what no task has a limit for, as `NAME[@POSITION] VALUE UNIT`; a service that was found worn or failed, of a
//      task that never waits (`safety`, or for a competent person; a check that follows one for safety) and that takes
//      no parts and no fluids, as `TASK[@POSITION] found failed` or `found worn`; one that was found failed, of a task
//      that covers such a one, or of any check. These are answered by a later service of the same point too that was
//      found neither, a covering one included, and by one of the same task that is kept for having been found the other
//      of the two; where it named no position of a task that has some, at each of them; where it is known by month or
//      year alone, by one after that (a look then answers it where it is after that, or was entered later). It is told
//      with the day of the first since it was last answered, with the note of the newest fact about it that has one,
//      and with what the newest look found. A look that finds it worn or failed keeps it. Answered, such a look brings
//      it back, with the look for the first fact of it and a service at all its positions; where nobody had seen
//      anything of that name, and it is no listed sign, the look alone is kept.
//  C47 An estimate of today's usage, of whatever making, is held against the due point and the grace of each usage limb
//      that is unreached or due by facts, of a point that is unreached or due. A point that no fact has brought there
//      is due by estimate from the due point on. A point by any limb of which the estimate is beyond the grace wants
//      its meter read, whether facts have brought that limb to its due point or not, and whichever limb rules. A point
//      that is overdue by facts, or without record, does not: it is told as that.
//  C44 A whole value less than one unit below the highest of its segment so far (the same day too, and a meter change's
//      `last`) was read without its tenths: it stands for that highest value, and a service at it was done at that use.
// ---------------------------------------------------------------------------------------------------------------
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace twin {

// ---- days -------------------------------------------------------------------------------------------------------

using Day = int;              // days since 1970-01-01
using Amount = std::int64_t;  // hundredths of an hour, or of a meter's or measurement's own unit

struct Civil {
  int year, month, day;
};

Day day_of(int year, int month, int day);
Civil civil_of(Day day);
int month_length(int year, int month);
Day add_months(Day anchor, int months);  // keeps the day of the month, cut to the month's last day
Day month_end(Day day);
std::string iso(Day day);

struct Span {
  Day first = 0, last = 0;
  bool whole() const { return first == last; }
};

// ---- the world --------------------------------------------------------------------------------------------------

struct Meter {
  std::string name, unit;
  std::optional<Amount> rolls_over_at;
};

enum class Kind { usage, calendar, changes, measured, sign, season };
enum class Unit { days, weeks, months, years };
enum class CountsFrom { done, due, earlier };

struct Limb {
  Kind kind = Kind::usage;
  std::string meter;         // usage: the meter; empty means `hours`, the machine's first meter in h
  Amount amount = 0;         // usage: the interval; measured: the limit
  int count = 0;             // calendar: how many units; changes: n; season: lead in days
  Unit unit = Unit::days;    // calendar
  std::string name;          // changes: the task; measured: what; season: which
  bool above = true;         // measured: above or below
  std::string measure_unit;  // measured
  std::vector<std::string> signs;
};

// Either a percentage, or amounts by unit.
struct Grace {
  std::optional<int> percent;
  std::optional<Amount> hours;
  std::vector<std::pair<std::string, Amount>> usage;
  std::optional<int> days;
  std::optional<int> changes;
};

struct FollowUp {
  std::string name;
  std::vector<Limb> within;  // usage and calendar limbs
};

struct Task {
  std::string name;
  std::vector<Limb> every;
  std::vector<Limb> first;
  std::vector<std::pair<std::string, std::vector<Limb>>> in;  // by condition
  std::optional<Grace> grace;
  bool safety = false;
  CountsFrom counts_from = CountsFrom::done;
  bool until_month_end = false;
  std::vector<std::string> covers;
  std::vector<std::string> positions;
  std::vector<FollowUp> follow_ups;
  bool competent_person = false;
  bool parts = false;  // takes parts: something new goes in
};

struct Schedule {
  std::string name;
  std::vector<Meter> meters;  // none: one meter, `engine` in h
  std::vector<Task> tasks;
};

struct Start {
  Day on = 0;
  Amount at = 0;  // of the first meter
};

struct Change {
  std::string task;
  std::vector<Limb> every, first;
};

struct Machine {
  std::string name, schedule;
  std::vector<Meter> meters;  // none: those of the schedule
  std::optional<Start> in_service, bought;
  std::optional<Day> left;
  std::vector<std::string> conditions;
  std::vector<Change> changes;
};

struct Season {
  std::string name;
  int from_month = 1, from_day = 1, to_month = 1, to_day = 1;
};

enum class FactKind {
  reading,
  service,
  sign,
  looked_at,
  measurement,
  meter_change,
  put_off,
  laid_up,
  out_of_use,
  back,
  strike
};

struct Fact {
  FactKind kind = FactKind::reading;
  int entry = 0;  // the place in the order of entry, unique in a world
  std::string machine;
  Span on;            // a strike has none
  std::string meter;  // empty: the machine's first meter
  std::optional<Amount> at;
  std::string task;  // `task/check` for the check of a follow-up
  std::string position;
  std::string name;           // sign, look, measurement
  bool found_good = true;     // by a look
  bool found_failed = false;  // by a service
  bool found_worn = false;    // likewise; not both
  std::optional<Amount> value;
  std::string unit;
  std::optional<Amount> last, first;  // meter change
  std::optional<Day> until;
  std::string by, note;
  bool history = false;        // a service that was told of long after it was done
  std::optional<int> strikes;  // the entry number of the fact that is struck
  // A meter change that entering the plain readings must find by itself (a declared roll-over). It is part of the
  // world; a file of facts that is meant to test the finding leaves it out.
  bool implied = false;
};

struct World {
  std::string fleet = "Twin holding";
  std::optional<Grace> grace;
  std::vector<Season> seasons;
  std::vector<Schedule> schedules;
  std::vector<Machine> machines;
  std::vector<Fact> facts;  // in any order: `entry` and `on` say it
  Day as_of = 0;
};

// ---- the answer -------------------------------------------------------------------------------------------------

enum class Standing { overdue, due, no_record, unreached };
enum class Basis { recorded, interpolated, last_known, in_service, unknown };
enum class Reach { unknown, unreached, due, overdue };  // of one limb

struct LimbAnswer {
  Limb limb;  // as it holds in the interval that now runs, the meter named
  Reach reach = Reach::unknown;
  std::optional<Amount> used;       // usage: since fitted; measured: the latest value since fitted
  std::optional<Amount> left;       // usage: to the due point
  std::optional<Amount> due_at;     // usage: the due point, a lifetime total
  std::optional<int> changes_used;  // changes
  std::optional<Day> due_on;        // calendar, season: always where known; the others only where reached
  std::optional<int> left_days;     // calendar, season
  std::optional<Amount> grace;      // usage, in hundredths; the other limbs in days or changes
};

struct Fitted {
  Day first = 0, last = 0;
  std::optional<Amount> at;
  std::string meter;  // the meter that `at` is of
  Basis basis = Basis::unknown;
};

struct PointAnswer {
  std::string machine, task;  // `task/check` for a follow-up
  std::string position;       // empty: none
  bool exists = false;        // where it does not, nothing below is filled
  Standing standing = Standing::unreached;
  std::optional<Kind> ruled_by;
  std::optional<Day> due_on;
  std::optional<Fitted> fitted;
  std::vector<LimbAnswer> limbs;
  std::vector<Kind> unknown;  // one for each limb that is unknown and not quiet, in the order of the limbs
  bool put_off = false;
  bool by_estimate = false;     // no fact has brought it to its due point, and an estimate has
  bool read_the_meter = false;  // not overdue by facts, and past its grace by an estimate
};

struct MachineAnswer {
  std::string machine;
  bool has_points = false;
  bool laid_up = false;
  bool out_of_use = false;
};

// What somebody saw and nobody has found good since.
struct SeenAnswer {
  std::string machine, sign;
  Day on = 0;
  std::string note;
  bool looked = false;  // and found worn
};

struct Answer {
  std::vector<MachineAnswer> machines;
  std::vector<SeenAnswer> seen;     // by machine, then in the order of facts
  std::vector<PointAnswer> points;  // machines, tasks, positions in written order; follow-ups behind their task
};

// What somebody reckons a meter to have run in all by the as-of day.
struct Estimate {
  std::string machine, meter;
  Amount usage = 0;
};

Answer evaluate(const World& world, const std::vector<Estimate>& today = {});

// Plain words for the parts of an answer, so that a difference can be read.
const char* word(Kind kind);
const char* word(Standing standing);
const char* word(Basis basis);
std::string decimal(Amount hundredths);
std::string describe(const PointAnswer& point);

// Meters that a machine has: its own, else those of its schedule, else the one that every machine has.
std::vector<Meter> meters_of(const World& world, const Machine& machine);
// The tasks that are done with this one: itself, and all it covers, transitively.
std::vector<std::string> done_with(const Schedule& schedule, const std::string& task);
const Schedule* schedule_of(const World& world, const Machine& machine);

}  // namespace twin
