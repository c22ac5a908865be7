// The job sheet: what is taken to the machine. What to mind before it is touched, what to do and in which order, with
// which parts and tools, what to check afterwards, and blanks for what only whoever stands there can tell.
//
//   JobSheet sheet = job_sheet(snapshot, {snapshot.as_of()}, forecaster);
//   for (const MachineSheet& page : sheet.pages) ...
//
// A sheet is a value: it keeps its list and its fleet, and what its pointers point to is in there. Times, parts, limits
// and intervals are what the schedules say; the program has none of its own.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "service/due_list.h"
#include "service/element_label.h"
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

// What the cautions of a task's own say of the state in which the machine is worked on, and whether one of its `needs`
// is that it is cold. What wants it cold comes before anything that warms it; then, what needs it running warms it,
// what drains better warm is drained then, and all else is done as it cools.
enum class JobStage {
  running,  // some step needs the engine running, and nothing hot comes out
  warm,     // hot fluid comes out
  still,    // neither
  cold,     // a cooling system is opened, or there is fuel vapour: only cold
};

std::string_view to_text(JobStage stage);

// A part or fluid, and how much of it the work takes.
struct SheetPart {
  std::string key;
  const Part* part = nullptr;  // null: the fleet lists no such part
  bool fluid = false;
  std::string unit;  // empty: pieces
  PartAmount amount;
};

// A task that is done with the one that includes it, which says what both take.
struct SheetIncluded {
  const Task* task = nullptr;
  std::string notes;                 // as they hold for this machine
  std::vector<const Point*> points;  // those that are due themselves
};

// A check that is to follow a task when it has been done, or what that includes.
struct SheetCheck {
  const Task* task = nullptr;
  const FollowUp* check = nullptr;
};

// Of these points, all to be done, those that are not done along with another one: neither included by it, nor a check
// that was owed after an earlier service and is asked for anew by this one. In their order.
std::vector<const Point*> by_themselves(const Fleet& fleet, const std::vector<const Point*>& points);

// A task to do: at one or several positions, with all that it includes.
struct SheetTask {
  const Task* task = nullptr;
  const FollowUp* check = nullptr;  // of a check that is due after an earlier service; else null
  std::string name;                 // `engine-oil`, `engine-oil/check-leaks`
  std::vector<const Point*> points;
  std::vector<SheetIncluded> included;
  std::vector<const Point*> renewed_checks;  // owed after its last service: done again, it asks for them anew
  JobStage stage = JobStage::still;
  bool runs = false;       // some step needs the engine running, before or behind the rest
  bool sign_seen = false;  // one of its signs was seen, that nobody has found good since
  // That sign, or what keeps the machine out of use, is about it: done before all else.
  bool unsafe = false;
  bool safety = false;                       // it, or one that it includes
  bool competent_person = false;             // likewise
  std::vector<const Point*> overdue_safety;  // points for safety that it includes, and that are overdue
  std::vector<SheetMeasure> measures;        // of what it includes too
  Resources resources;                       // at all its positions together
  std::string notes;                         // as they hold for this machine
  std::vector<std::string> needs;            // skills, of what it includes too
  std::vector<std::string> tools;            // likewise, each once
  std::vector<SheetCheck> checks;
  std::optional<ElementLabel> label;     // blank; none where nothing new goes in
  std::optional<ElementDueAgain> again;  // done on the day of the sheet

  bool never_waits() const { return safety || competent_person; }
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
};

struct MachineSheet {
  const Machine* machine = nullptr;
  const Site* site = nullptr;       // null where it has none
  const UseState* state = nullptr;  // null: in use
  std::vector<SheetMeter> meters;
  std::vector<const SeenSign*> seen;  // that nobody has found good since
  std::vector<SheetTask> tasks;       // in the order in which they are best done
  // It is out of use, or a sign was seen: nobody runs or drives it until that is mended. Which step of a task runs it
  // its words alone tell, so this holds at each of them.
  bool not_to_run = false;
  std::vector<const Point*> checks_owed;    // after an earlier service, and not due yet
  std::vector<const Point*> measure_again;  // measured values near their limit, of no task above
  std::vector<SheetMeasure> near_limit;     // those values
  std::vector<const Point*> put_off;        // decided to wait, and so no task above
  std::vector<const Point*> find_out;       // without record, or with something unknown
  std::vector<const Gap*> gaps;             // what is not known of the machine itself

  std::vector<SheetCaution> cautions;  // in the order of the catalogue
  std::int64_t labour_minutes = 0;     // of one person: two people count twice
  std::int64_t check_minutes = 0;      // of the checks that follow, beside
  int people = 1;                      // the most that a task needs
  std::vector<std::string> no_time;    // tasks that say no `takes`
  std::vector<SheetPart> parts;        // parts first, by name
  std::vector<std::string> tools;      // each once
  std::vector<SheetEntry> entries;     // how to write down what was done
  bool nothing_known = false;          // it has tasks, and of none of them is known when it is due
  bool locked_off = false;             // automatic start is locked off for it, and goes back on

  // Something to do or to look at, or a reason not to run it.
  bool has_work() const { return !tasks.empty() || !seen.empty() || !checks_owed.empty() || out_of_use(); }
  bool out_of_use() const { return state != nullptr && state->kind == UseKind::out_of_use; }
  // Its work is none of that day: it is done before the machine goes back.
  bool laid_up() const { return state != nullptr && state->kind == UseKind::laid_up; }
  // All the rest that is to be told of it.
  bool has_remarks() const;
  std::vector<const Point*> due_and_put_off() const;
};

// --- The sheet ---------------------------------------------------------------------------------------------

struct JobSheetAsk {
  Day within;          // what comes due up to then is to be done too
  bool named = false;  // a page of each machine of the scope, whether there is work or not
};

struct JobSheet {
  std::shared_ptr<const DueList> list;
  std::vector<MachineSheet> pages;   // by site and machine in the order of the fleet file
  std::vector<MachineSheet> others;  // no work, but something is to be told of them
  std::vector<const Gap*> gaps;      // of no machine on a page
  bool has_work() const;
};

// Of the machines of the scope that are kept on that day.
JobSheet job_sheet(const Snapshot& snapshot, const JobSheetAsk& ask, const Forecaster& forecaster);

// --- Reading round -----------------------------------------------------------------------------------------

// All meters, in the order in which somebody walks round: a list to write on.
struct RoundMachine {
  const Machine* machine = nullptr;
  const UseState* state = nullptr;  // null: in use
  std::vector<SheetMeter> meters;
  std::vector<const Gap*> gaps;  // what is not known of its meters
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
