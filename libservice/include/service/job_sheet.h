// The job sheet: what is taken to the machine. What to mind before it is touched, what to do and in which order, with
// which parts and tools, what to check afterwards, and blanks for what only whoever stands there can tell.
//
//   JobSheet sheet = job_sheet(snapshot, {snapshot.as_of()}, forecaster);
//   for (const MachineSheet& page : sheet.pages) ...
//
// A sheet is a value: it keeps its list and its fleet, and what its pointers point to is in there. Times, parts, limits
// and intervals are what the schedules say; the program has none of its own.
#pragma once

#include <chrono>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "service/due_list.h"
#include "service/element_label.h"
#include "service/not_to_run.h"
#include "service/part_lack.h"
#include "service/waiting_to_mend.h"
#include "service/workload.h"

#pragma GCC visibility push(default)

namespace service {

// --- One machine -------------------------------------------------------------------------------------------

// What a meter showed last; nothing where nobody ever read it.
struct SheetMeter {
  const Meter* meter = nullptr;
  std::optional<Amount> shown;
  std::optional<Day> on;
  std::vector<const Gap*> gaps = {};  // what is not known of it, or hard to believe
};

// A value that is measured at the work: a blank to fill in, with its limit.
struct SheetMeasure {
  const Point* point = nullptr;
  const LimbStanding* limb = nullptr;  // measured
};

// What a task does to the machine, by the cautions of its own and its `needs`: work is done in this order, so that what
// wants it cool comes before what warms it, and what tries that all is right comes when nothing is opened any more.
enum class JobStage {
  cold,       // a need for cold, or fuel vapour, and nothing runs it or lets hot fluid out: it stays cold
  still,      // neither: at rest, and it stays so
  from_cold,  // begun cold (a cooling system is opened, fuel), and then run
  running,    // some step needs it running
  warm,       // hot fluid comes out
  trial,      // for safety, puts in nothing, and runs it: stops, guards, brakes, load
};

std::string_view to_text(JobStage stage);

// A task that is done with the one that includes it, which says what both take.
struct SheetIncluded {
  const Task* task = nullptr;
  std::string notes;                 // as they hold for this machine
  std::vector<const Point*> points;  // those that are due themselves
  // Its steps that the including task's own do not repeat word for word; nothing says that those are left out.
  std::vector<std::string> steps;
};

// A check that is to follow a task when it has been done, or what that includes.
struct SheetCheck {
  const Task* task = nullptr;
  const FollowUp* check = nullptr;
};

// Of these points, all to be done, those that are not done along with another one: neither included by it, nor a check
// that was owed after an earlier service and is asked for anew by this one. In their order.
std::vector<const Point*> by_themselves(const Fleet& fleet, const std::vector<const Point*>& points);

// A step to tick.
struct SheetStep {
  std::string text;
  const Task* of = nullptr;  // the included task whose step it is, word for word; null: the task's own
};

// Decided to wait until a day that lies within the horizon, or a use that is expected by then: not done before it.
struct SheetWait {
  const Point* point = nullptr;
  Day from;             // never before the day of the sheet
  bool by_use = false;  // a use ends it: what the meter shows decides (`PutOff::shown`), and the day is expected
};

// A part or fluid, and how much of it the work of a day takes.
struct SheetPart {
  std::string key;
  const Part* part = nullptr;  // null: the fleet lists no such part
  bool fluid = false;
  std::string unit;  // empty: pieces
  PartAmount amount;
  std::optional<SheetWait> wait = {};  // of work that is put off
  std::optional<PartLack> lack = {};   // of all that takes it; none: stock covers it, or the fleet does not list it
};

// What a task says of running a machine that nobody may run (`MachineSheet::not_to_run`), or that is laid up. That it
// is out of use goes before all else. Whatever it says, nobody runs the machine before all of `MachineSheet::to_mend`
// is mended.
enum class RunRule {
  free,           // nothing
  once_mended,    // it mends the last of what makes it unsafe, and is run for its own steps alone, once all is mended
  after_mending,  // it stands behind that, and runs or drives it: only once all is mended, else those steps are left
                  // out
  not_at_all,     // the steps that run or drive it are left out
  at_rest,        // the same, of one that has no such step as far as is known: nobody runs or drives it for this
  once_put_back,  // laid up: they are done after what the lay-up took off is put back, or the day it goes back
};

std::string_view to_text(RunRule rule);

// A task to do: at one or several positions, with all that it includes.
struct SheetTask {
  const Task* task = nullptr;
  const FollowUp* check = nullptr;  // of a check that is due after an earlier service; else null
  std::string name;                 // `engine-oil`, `engine-oil/check-leaks`
  std::vector<const Point*> points;
  std::vector<SheetIncluded> included;
  std::vector<const Point*> renewed_checks;  // owed after its last service: done again, it asks for them anew
  std::vector<SheetStep> steps;
  std::vector<SheetWait> waits;  // of each of its points, all with one end; or none: it is work of the day of the sheet
  Day done_on{};                 // the day of the sheet; where it waits, the end of that
  // Of its points, and those that it includes: found worn or failed, and not mended since. That is done again, due or
  // not.
  std::vector<const SeenSign*> found_bad;
  JobStage stage = JobStage::still;
  // Some step runs or drives it, before or behind the rest, or may: its cautions say so, or hot fluid is drained and
  // the machine tried for it afterwards. Of a check nobody can tell.
  bool runs = false;
  bool says_running = false;  // its cautions say so (`engine-running`)
  // Wants it cold and stands behind other work: cold first, where any of that ran it.
  bool cold_again = false;
  RunRule run_rule = RunRule::free;
  bool sign_seen = false;  // one of its signs was seen, that nobody has found good since
  // That sign, or what keeps the machine out of use, is about it: done before all else.
  bool unsafe = false;
  bool safety = false;                       // it, or one that it includes
  bool competent_person = false;             // likewise
  std::vector<const Point*> overdue_safety;  // points for safety that it includes, and that are overdue
  std::vector<SheetMeasure> measures;        // of what it includes too
  Resources resources;                       // at all its positions together
  std::vector<PartLack> lacks;               // of the parts that it takes: what stock does not cover, or nobody counted
  std::string notes;                         // as they hold for this machine
  std::vector<std::string> needs;            // skills, of what it includes too
  std::vector<std::string> tools;            // likewise, each once
  std::vector<SheetCheck> checks;
  bool renews = false;                   // what it finds worn or failed; else that is not mended by it
  std::optional<ElementLabel> label;     // blank; none where nothing new goes in
  std::optional<ElementDueAgain> again;  // done on `done_on`

  bool never_waits() const { return safety || competent_person; }
  // A competent person's work that takes nothing apart: it looks at the machine as it is when all else is done. What
  // he begins cold, drains or renews stands in its stage, before what tries the machine.
  bool examines() const {
    const bool as_it_is = stage == JobStage::still || stage == JobStage::running || stage == JobStage::trial;
    return competent_person && !label && as_it_is;
  }
  // It is put off until a day within the horizon.
  bool is_later() const { return !waits.empty(); }
};

// What is looked at or measured without a service: a check owed after an earlier one, a value near its limit. Whoever
// does it needs what its task says.
struct SheetLook {
  const Task* task = nullptr;
  const FollowUp* check = nullptr;  // null: measured
  std::string name;
  std::vector<const Point*> points;
  std::vector<SheetMeasure> measures;
  std::optional<std::chrono::minutes> time;  // none: nobody said
  int people = 1;
  std::vector<std::string> needs;
  std::vector<std::string> tools;
  RunRule run_rule = RunRule::free;
};

// What the work of some takes: there, one after the other, and of all people together.
struct SheetLabour {
  std::int64_t minutes = 0;
  std::int64_t labour_minutes = 0;  // two people count twice
  int people = 1;                   // the most that a task needs
  std::vector<std::string> tasks;
  std::vector<std::string> no_time;  // those that say no `takes`
  std::vector<std::string> tools;    // each once
};

// What is ticked when all work is done, in this order.
enum class AfterKind {
  tools_out,
  guards_on,
  everybody_clear,
  check,                 // one that follows a task
  power_back,            // the lock off the power, by whoever put it on
  automatic_start_back,  // last
  stays_locked,          // the machine must not run: what was locked off stays so until it is back; checks behind it
};

std::string_view to_text(AfterKind kind);

struct SheetAfter {
  AfterKind kind = AfterKind::tools_out;
  SheetCheck check = {};     // of a check
  bool once_back = false;    // of a check: the machine must not run, so it follows when that is back
  bool once_mended = false;  // of what lets it run, or follows its work: not before all of `MachineSheet::to_mend` is
};

// Work that is put off until one day or use within the horizon. What it wants locked off is locked off for it alone, on
// its day: nothing stays locked off for it from the day of the sheet.
struct SheetLater {
  SheetWait wait;                  // of one of its points; all have one end
  std::vector<std::string> tasks;  // as they stand on the page
  bool locked_off = false;
  bool power_off = false;
  std::vector<SheetAfter> afterwards;
};

// A caution and the tasks at which it is to be minded.
struct SheetCaution {
  std::string written;  // a name of the catalogue, or a sentence
  std::vector<std::string> tasks;
  bool at_seen = false;  // and at the look at what was seen
};

// Services that are written down in one go, for the same may be said of all of them.
struct SheetEntry {
  std::vector<const Point*> points;
  const Meter* meter = nullptr;   // whose value goes with them: that of their first limb by use, else the first
  bool competent_person = false;  // whoever did it is named
  bool puts_in_new = false;       // else it only looks: found worn or failed, nothing is mended by it
  bool mends = false;             // what was found worn or failed: written down when it is good
  // What was measured is at or past its limit, and nothing new goes in by the task itself: written down when that is
  // renewed or put right, with what it measures then.
  bool past_limit = false;
  bool sign_seen = false;  // one of its signs was seen, that nobody has found good since
  // A sign or a value of it, or of what it includes, forbids to run the machine: written down when that is renewed or
  // put right, and apart from all else. Whoever only looked says that of the sign.
  bool lifts_ban = false;
  std::vector<SheetMeasure> measures = {};  // of those past their limit
  std::optional<SheetWait> wait = {};       // put off: not before
};

struct MachineSheet {
  const Machine* machine = nullptr;
  const Site* site = nullptr;       // null where it has none
  const UseState* state = nullptr;  // null: in use
  std::vector<SheetMeter> meters;
  std::vector<const SeenSign*> seen;  // that nobody has found good since
  std::vector<SheetTask> tasks;       // in the order in which they are best done
  // Nobody runs or drives it: it is out of use, or work for safety showed one of these signs or is past its limit.
  bool not_to_run = false;
  std::vector<const Point*> forbidden_by;          // see `forbidding_limbs`
  std::vector<const SeenSign*> forbidden_by_seen;  // of what was kept as seen, see `forbids_running`
  // Each value, sign and thing seen of both of these: nobody runs it before all of it is mended.
  std::vector<WaitsToMend> to_mend;
  std::vector<std::string> to_mend_names() const;  // what these are about, each once: `hoses`, `fork@left`
  // What never waits and is overdue, but for what forbids to run it; those too that another task includes.
  std::vector<const Point*> overdue_safety;
  std::vector<SheetLook> checks_owed;    // after an earlier service, and not due yet
  std::vector<SheetLook> measure_again;  // measured values near their limit, of no task above
  std::vector<const Point*> put_off;     // decided to wait, and so no task above
  std::vector<const Point*> find_out;    // without record, or with something unknown
  std::vector<const Gap*> gaps;          // what is not known of the machine itself

  std::vector<SheetCaution> cautions;  // in the order of the catalogue
  SheetLabour labour;                  // of those who keep it
  SheetLabour later;                   // of those who keep it too, and put off: not in `labour` but for the tools
  SheetLabour competent;               // of a competent person, who comes with tools of his own
  std::int64_t check_minutes = 0;      // of the checks that follow, beside; not of what is put off
  std::vector<SheetPart> parts;        // of each day by itself; parts first, by name
  std::vector<SheetAfter> afterwards;  // of the work of the day
  std::vector<SheetLater> later_work;  // behind that, by its days
  std::vector<SheetEntry> entries;     // how to write down what was done
  // Overdue work for safety that a task includes, where that alone is done and not the whole.
  std::vector<SheetEntry> alone;
  // Of what was seen, what only a look ends: all that a service among the entries mends is left out.
  std::vector<const SeenSign*> to_look_at;
  bool nothing_known = false;  // it has tasks, and of none of them is known when it is due
  bool locked_off = false;     // automatic start is locked off, from the first task of the day to its last
  bool power_off = false;      // the power is, likewise

  // Something to do or to look at, or a reason not to run it.
  bool has_work() const { return !tasks.empty() || !seen.empty() || !checks_owed.empty() || out_of_use(); }
  bool out_of_use() const { return state != nullptr && state->kind == UseKind::out_of_use; }
  // Its work is none of that day: it is done before the machine goes back.
  bool laid_up() const { return state != nullptr && state->kind == UseKind::laid_up; }
  // What is locked off stays so until the machine is back.
  bool stays_locked() const { return state != nullptr && state->kind != UseKind::in_use; }
  // All the rest that is to be told of it.
  bool has_remarks() const;
  std::vector<const Point*> due_and_put_off() const;
  // For safety and without record, and no task here: nobody knows how it is, so it is looked at first.
  std::vector<const Point*> look_first() const;
};

// --- The sheet ---------------------------------------------------------------------------------------------

struct JobSheetAsk {
  Day within;          // what comes due up to then is to be done too
  bool named = false;  // a page of each machine of the scope, whether there is work or not
  // Stock is shared out among the services of the whole fleet up to this day, as `parts_list` does; none, or before
  // `within`: up to that.
  std::optional<Day> parts_to = {};
};

struct JobSheet {
  std::shared_ptr<const DueList> list;
  std::vector<MachineSheet> pages;   // by site and machine in the order of the fleet file
  std::vector<MachineSheet> others;  // no work, but something is to be told of them
  std::vector<const Gap*> gaps;      // of no machine on a page
  bool has_work() const;
};

// Of the machines of the scope that are kept on that day. Where work takes a part that the fleet lists, the snapshot
// must hold all facts of the record (take_fleet_snapshot), for stock is the fleet's: else it fails with internal.
JobSheet job_sheet(const Snapshot& snapshot, const JobSheetAsk& ask, const Forecaster& forecaster);

// --- Reading round -----------------------------------------------------------------------------------------

// All meters, in the order in which somebody walks round: a list to write on.
struct RoundMachine {
  const Machine* machine = nullptr;
  const UseState* state = nullptr;  // null: in use
  std::vector<SheetMeter> meters;
  std::vector<const Gap*> gaps;       // what is not known of its meters
  std::optional<RunBan> ban;          // nobody may run it
  std::vector<const SeenSign*> seen;  // that nobody has found good since
};

struct RoundSite {
  const Site* site = nullptr;  // null: machines without a site
  std::vector<RoundMachine> machines;
};

struct ReadingRound {
  std::shared_ptr<const DueList> list;
  std::vector<RoundSite> sites;
  std::vector<const Machine*> without_meters;
  std::size_t meters() const;
};

ReadingRound reading_round(const Snapshot& snapshot);

}  // namespace service

#pragma GCC visibility pop
