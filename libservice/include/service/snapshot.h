// What is known on one day: the fleet, the facts up to that day that nobody struck, and who is asking about what.
// Also the judge: whether new facts can be true beside those already in the book.
//
// A Snapshot is an immutable value. Everything after it (usage, standings, ...) is a pure function of it.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "service/base.h"
#include "service/fleet.h"
#include "service/record.h"

#pragma GCC visibility push(default)

namespace service {

// --- Snapshot ----------------------------------------------------------------------------------------------

struct Derived;    // machine_book.h
class LearntKind;  // learnt_kind.h

// What was worked out of all facts of machines, by machine.
using DerivedStates = std::map<std::string, std::shared_ptr<const Derived>, std::less<>>;

// What kinds have taught, by schedule: of all facts of their machines.
using LearntKinds = std::map<std::string, std::shared_ptr<const LearntKind>, std::less<>>;

// What was read of a record. Nothing in it may be left out: without the machines of the kind other days come out, and
// without the newest day a clock that is behind goes unnoticed.
struct Extract {
  std::vector<Fact> facts;    // of the machines of `read`, struck ones and strikes too
  Scope read;                 // at least the machines asked about and those of their kinds (`kin_of`), but for `kinds`
  std::optional<Day> newest;  // the newest effective day in the whole record; none: it holds no fact with a day
  // Machines of which `facts` holds no more than what bears on a standing, and what was worked out of them all; none of
  // their facts is after as-of.
  DerivedStates derived = {};
  // The same of machines of which `facts` holds all: it need not be worked out again.
  DerivedStates derived_beside = {};
  // Of whose machines no fact is after as-of: of these, no other machines than those asked about need be read.
  LearntKinds kinds = {};
};

// All facts that there are. The newest day is taken from them.
Extract whole_book(std::vector<Fact> facts);

class Snapshot {
 public:
  // Facts whose day is after `as_of` are not there yet. With `day_is_given` false (the day came off a clock) a newest
  // fact after `as_of` means that the clock is wrong. Fails with internal where the extract lacks machines of the kinds
  // in the scope.
  Snapshot(std::shared_ptr<const Fleet> fleet, Extract extract, Day as_of, bool day_is_given, Scope scope = {});

  const Fleet& fleet() const { return *fleet_; }
  const std::shared_ptr<const Fleet>& fleet_ptr() const { return fleet_; }
  Day as_of() const { return as_of_; }
  bool day_is_given() const { return day_is_given_; }
  const Scope& scope() const { return scope_; }
  std::optional<Day> newest_fact() const { return newest_; }

  // The unstruck facts of a machine up to as-of, in the one order. Fails with internal where not all of them were read.
  std::span<const Fact> facts_of(std::string_view machine) const&;
  std::span<const Fact> facts_of(std::string_view machine) const&& = delete;

  // Those of them that bear on a standing: all, but where only the derived state of the machine was read.
  std::span<const Fact> bearing_facts_of(std::string_view machine) const&;
  std::span<const Fact> bearing_facts_of(std::string_view machine) const&& = delete;

  // What was worked out of its facts before; null where that is to be done.
  std::shared_ptr<const Derived> derived_of(std::string_view machine) const;

  // What was learnt of a kind before; null where that is to be worked out of its machines.
  std::shared_ptr<const LearntKind> learnt_of(std::string_view schedule) const;

  // The same about other machines. Fails with internal where their facts, or those of their kinds, were not read.
  Snapshot within(Scope scope) const;

  // All facts of the record were read, so that what concerns the whole fleet (stock, say) can be told.
  bool holds_all() const { return !read_.machines && book_->derived.empty(); }

  // Machines with facts which the fleet does not list, in order, with the number of their facts.
  const std::vector<std::pair<std::string, int>>& unlisted() const& { return unlisted_; }
  const std::vector<std::pair<std::string, int>>& unlisted() const&& = delete;

 private:
  std::shared_ptr<const Fleet> fleet_;
  Scope scope_;
  Day as_of_;
  bool day_is_given_;
  void find_unlisted();
  void insist_on_kin() const;

  std::optional<Day> newest_;
  Scope read_;
  struct Book {
    std::vector<Fact> facts;  // by machine, then in the one order
    std::map<std::string, std::pair<std::size_t, std::size_t>, std::less<>> ranges;
    DerivedStates derived;
    DerivedStates derived_beside;
    LearntKinds kinds;
  };
  std::shared_ptr<const Book> book_;
  std::vector<std::pair<std::string, int>> unlisted_;
};

// A scope and all other machines of its kinds (of the same schedules), from which its use ahead is learnt; of kinds of
// which that is `known` none.
Scope kin_of(const Fleet& fleet, const Scope& scope, const LearntKinds& known = {});

// What has to be read of a record for a question about a scope: its kin, and machines that the fleet does not list.
// Where such a machine stood nobody can tell, so every scope is told of it.
Scope to_be_read(const Fleet& fleet, const Record& record, const Scope& scope, const LearntKinds& known = {});

// What the record holds about a scope on a day, with all that it takes to answer as a question about the whole fleet
// would. Fails as `Record::facts` does.
Snapshot take_snapshot(std::shared_ptr<const Fleet> fleet, const Record& record, Day as_of, bool day_is_given,
                       const Scope& scope = {});

// The same with all that the record holds, for answers whose figures are the whole fleet's and whose rows are the
// scope's: parts against stock, a season's orders.
Snapshot take_fleet_snapshot(std::shared_ptr<const Fleet> fleet, const Record& record, Day as_of, bool day_is_given,
                             const Scope& scope = {});

// The machines of a site, for a scope. Fails with usage where there is no such site.
Scope scope_of_site(const Fleet& fleet, std::string_view site);

// --- State of a machine ------------------------------------------------------------------------------------

enum class UseKind { in_use, laid_up, out_of_use };

std::string_view to_text(UseKind kind);  // `out-of-use`

// Why a machine is not in use, in the words of whoever said so that day.
struct UseReason {
  Day on;
  std::string note;
  friend bool operator==(const UseReason&, const UseReason&) = default;
};

struct LayUp {
  Day since;
  std::optional<Day> until;          // the planned return, by whoever spoke last
  std::vector<UseReason> reasons{};  // all that was said of it since then, oldest first
  friend bool operator==(const LayUp&, const LayUp&) = default;
};

// Use that a meter shows of a machine since it was last said to be laid up or out of use, and before a planned return.
struct RanSince {
  std::string meter;
  std::string unit;
  Amount used;
  Day from;  // of the value before
  // That one was shown when the machine stood already; else some of the use may be of the days before it stood.
  bool all_of_it = true;
  std::optional<Amount> at_least = {};  // of that, what was certainly run while it stood, where that is known
  std::optional<FactId> fact = {};      // of the newest value, where that is the last one known of the meter
};

struct UseState {
  UseKind kind = UseKind::in_use;  // a machine both out of use and laid up is out of use
  std::optional<Day> since;
  std::optional<Day> until;  // laid up: planned return; from that day on the machine counts as in use again
  std::string note;          // the reasons in one text
  // All that was said of that since it was last in use, oldest first: what is said later takes back nothing.
  std::vector<UseReason> reasons;
  std::optional<LayUp> laid_up;  // that day, also where it is out of use as well: with a day and reasons of its own
  // In use: the lay-up that ended on its planned day, until somebody says how the machine stands. That day answers
  // nothing that was run before it.
  std::optional<LayUp> ran_out{};
  std::optional<Day> said_last{};  // of these: the newest day on which somebody said so since it was last in use
  std::vector<RanSince> ran{};     // in lists, as meters tell it (`DueList::state_of`); facts of use alone tell none
};

// Of a state of today: it is so still on that later day, if nobody says anything until then.
inline bool stands_on(const UseState& state, Day on) {
  return state.kind == UseKind::out_of_use || (state.kind == UseKind::laid_up && (!state.until || *state.until > on));
}

// Of a state of today: the lay-up that is over by that later day, so that the machine counts as in use again. Null:
// there is none, or it stands for another reason too.
inline const LayUp* lay_up_over_by(const UseState& state, Day on) {
  return state.kind == UseKind::laid_up && state.laid_up && !stands_on(state, on) ? &*state.laid_up : nullptr;
}

// An unsafe machine stays out of use until somebody says that it is back, whatever else happens to it.
UseState use_state(const Snapshot& snapshot, const Machine& machine);

// The same on any day. `facts`: of that machine, unstruck, in the one order.
UseState use_state(std::span<const Fact> facts, Day on);

// True while the machine is the owner's on that day: not before in-service or bought, not from the day it left.
bool kept_on(const Machine& machine, Day day);

// --- Tasks of a machine ------------------------------------------------------------------------------------

// Where a limb has several candidates (`in:` under several matching conditions), the one that is due first rules;
// for calendar limbs that depends on the day from which they are counted.
struct LimbChoice {
  std::vector<Limb> candidates;  // one unless several conditions match
};

// A task as it holds for one machine: `in`, `change` and `first` applied limb by limb, meters named.
struct MachineTask {
  const Task* task = nullptr;
  std::vector<LimbChoice> every;  // from the second interval on
  std::vector<LimbChoice> first;  // the running-in interval; the same as `every` where there is none
  Grace grace;                    // the task's or the machine's own, unit by unit, else the fleet's; none for `safety`
  Grace own_grace;                // without the fleet's, which is not for signs, nor for what a competent person does
  std::vector<std::string> positions;
  std::vector<std::string> served_by;  // names of the tasks whose service counts as one of it: `counted_as`

  // Of a task without positions: one without a name.
  const std::vector<std::string>& places() const&;
  const std::vector<std::string>& places() const&& = delete;
};

std::vector<MachineTask> tasks_of(const Fleet& fleet, const Machine& machine);
std::optional<MachineTask> task_of(const Fleet& fleet, const Machine& machine, std::string_view task);

// Whether all tasks of two machines of one schedule hold for both alike, as can be told without working them out.
bool tasks_alike(const Machine& a, const Machine& b);

// The names of tasks whose service counts as a service of this one: itself, and all that cover it, directly or not.
// An ordinary task never covers one that needs a competent person.
std::vector<std::string> counted_as(const Schedule& schedule, std::string_view task);

// The task or check that a fact names, `task` or `task/check`.
struct NamedTask {
  const Task* task = nullptr;  // null where there is none of that name
  const FollowUp* follow_up = nullptr;
};

NamedTask task_named(const Schedule& schedule, std::string_view name);

// The names of the tasks that are done with this one: itself, and all that it covers (`counted_as` the other way).
std::vector<std::string> done_with(const Schedule& schedule, std::string_view task);

// Whether a service puts in new parts or fluids, as this machine does the task. A check puts in none.
bool puts_in_new(const Machine& machine, const NamedTask& named);

// Whether what a service finds worn or failed is renewed by it. Of what never waits only a part does that: a pin that
// is found worn is as worn when it is greased.
bool renews(const Machine& machine, const NamedTask& named);

// Whether its service, where it says no more, may mean that what made it come due was renewed or put right, or that
// somebody only looked at it: a measured value of a task that renews nothing, and a sign of one that never waits.
bool may_only_be_looked_at(const Machine& machine, const Task& task, LimbKind kind);

// --- What people see and measure ---------------------------------------------------------------------------

// A sign on which a task of a machine comes due.
struct ListedSign {
  std::string name;
  bool safety = false;  // of a safety task, or one for a competent person
};

// By name, each once, from all intervals of the machine's tasks.
std::vector<ListedSign> listed_signs(const Fleet& fleet, const Machine& machine);

// What a task of a machine has a limit for.
struct MeasuredName {
  std::string name;
  std::vector<std::string> units;      // of its limits
  std::vector<std::string> positions;  // of the tasks that have one
};

// By name, each once, from all intervals of the machine's tasks.
std::vector<MeasuredName> measured_names(const Fleet& fleet, const Machine& machine);

// What somebody may have meant by a name of which no task of the machine knows.
struct NearName {
  std::string name;
  bool measured = false;  // a name of what is measured, else a sign
  // Of a sign that is a measurement in words (`restriction 6.2 kPa`): its value, and the unit where it is not the one
  // that is meant unless told.
  std::optional<Measure> value = {};
  std::string unit = {};
  // Of what is measured: the positions at which its limit stands, and the one of them that the words name.
  std::vector<std::string> positions = {};
  std::string position = {};
  // Of a sign: other listed ones whose words stand among those that are written too.
  std::vector<std::string> also = {};
};

// Of a sign (`kind`): what is measured where its name stands among the words with a value, else the nearest listed
// sign, or one whose words stand among those that are written (`oil leaks`), else what is measured where only its name
// stands there (`restriction high`). Of a measurement: the nearest of the names of what is measured, else of the signs.
// Nothing where the name is known (`name_written`).
std::optional<NearName> near_name(const Fleet& fleet, const Machine& machine, FactKind kind, std::string_view written);

// Found worn or failed.
inline bool found_bad(const Fact& fact) { return fact.found && *fact.found != Found::good; }

// Kept among what was seen, until somebody has looked.
struct Kept {
  std::string name;     // by which a look answers it
  bool safety = false;  // of a task that never waits: a look must say who looked
};

// Which facts about a machine are kept so, and would else be lost:
//   - a sign that no task lists, by its name;
//   - a measurement of what no task has a limit for, with its value: `oil-heat 110 C`, `tread@rear 3 mm`;
//   - a service of a task that never waits and puts in nothing new that was found worn or failed: nothing new went in,
//     so the machine is as bad as before, though the check was done: `brakes found failed`, `fork@left found worn`; and
//     a service that includes such a task and was found failed, for nobody knows what of it: `big-service found
//     failed`;
//   - any check after a service that was found failed: `engine-oil/check-leaks found failed`.
// A look that finds such a name worn or failed keeps it, or brings it back, whether or not anything of it was open. At
// a listed sign it is a sign itself: its tasks come due on it. The fleet must outlive it.
class KeptAsSeen {
 public:
  KeptAsSeen(const Fleet& fleet, const Machine& machine);
  std::optional<Kept> of(const Fact& fact) const;
  bool is_listed(const std::string& sign) const;  // a task of the machine comes due on it

 private:
  bool leaves_unsafe(const NamedTask& named, bool failed) const;

  const Machine& machine_;
  const Schedule& schedule_;
  std::vector<std::string> signs_;
  std::vector<std::string> measured_;
};

// --- Services of a point -----------------------------------------------------------------------------------

// All services of one day that count for a point; several on a day are one. The last entered speaks for them. The facts
// belong to whoever asked.
struct ServiceDay {
  std::vector<const Fact*> facts;

  const Fact& spoken_for() const { return *facts.back(); }
  Day day() const { return facts.back()->on.first; }
};

// The services of a task at a position, a day at a time, oldest first: its own and those of the tasks that cover it
// (`counted_as`). A service that names no position counts at all of them; an empty `position` asks for services at any.
// `facts`: of one machine, unstruck, in the one order.
std::vector<ServiceDay> services_of(std::span<const Fact> facts, const Schedule& schedule, std::string_view task,
                                    std::string_view position);
std::vector<ServiceDay> services_of(std::span<const Fact> facts, const MachineTask& task, std::string_view position);

// The checks recorded of a follow-up (`task/check`) at a position. Nothing covers a check.
std::vector<ServiceDay> checks_of(std::span<const Fact> facts, std::string_view check, std::string_view position);

// --- The judge ---------------------------------------------------------------------------------------------

// Who enters facts, when, and from where.
struct Stamp {
  CommandId command;
  std::int64_t entered = 0;
  std::string entered_by;
  std::string origin;
};

struct Proposal {
  Fact fact;
  bool has_id = false;         // came with an id of its own (an export): it was judged when it was entered
  std::optional<Place> place;  // where it stands in a file
  // What speaks against it already, by whoever proposes it; it is refused for that.
  std::optional<Diagnostic> wrong = std::nullopt;
};

struct Judgement {
  std::vector<Fact>
      accepted;  // stamped and numbered; meter changes implied by a roll-over directly before their reading
  std::vector<Diagnostic> refused;
  std::vector<std::size_t> refused_rows;  // indexes of the proposals refused
  std::vector<std::string> said;          // what was understood beyond the plain fact, such as a roll-over
  int already_there = 0;                  // rows of a file that the book holds already, and facts whose id it holds
};

// Judges new facts as a whole, in the one order, beside the known ones (struck ones may be among them).
// Facts must be whole: each holds what its kind needs (record.h). A fact dated after `today` is refused: a plan is not
// a fact. Names are completed (the machine's first meter, the
// unit of a limit), so that the meaning of a recorded fact does not depend on later edits of the fleet files.
Judgement judge(const Fleet& fleet, const std::vector<Fact>& known, const std::vector<Proposal>& proposals,
                const Stamp& stamp, Day today);

// What the judge would say today of facts that are in the book already: the fleet files may have changed since, and
// merged facts were judged elsewhere. Struck facts, strikes and facts after `today` are left out. Facts about a machine
// that the fleet does not list are told once for each machine.
struct JudgedAgain {
  FactId fact;
  Diagnostic what;
};

std::vector<JudgedAgain> judge_again(const Fleet& fleet, const std::vector<Fact>& facts, Day today);

// --- Readings in order -------------------------------------------------------------------------------------

// One step in the life of a meter: a value shown on a day, or a change of the meter itself.
struct MeterEvent {
  const Fact* fact = nullptr;  // null for the value the fleet file gives at in-service or bought
  Day day;
  Amount shown;                 // of a change: what the old meter showed
  std::optional<Amount> fresh;  // of a change: what the new meter shows
};

// People write down whole hours where a service was written with its tenth: a whole value less than one unit below the
// highest of its segment so far. The meter shows what it showed, and the value counts as no use. Common practice, no
// source.
inline bool read_to_whole_unit(Amount shown, Amount highest) {
  constexpr std::int64_t unit = 100;
  return shown.hundredths % unit == 0 && shown < highest && (highest - shown).hundredths < unit;
}

// The same the other way round: the value before may have been read without its tenths, so less than a unit above it
// shows no use for certain.
inline bool may_be_no_use(Amount shown_before, Amount shown) {
  constexpr std::int64_t unit = 100;
  return shown_before.hundredths % unit == 0 && shown >= shown_before && (shown - shown_before).hundredths < unit;
}

// Whether a value in this fact was shown by this meter; a fact that names no meter means the machine's first.
bool shown_by(const Fact& fact, const Machine& machine, const Meter& meter);

// The steps of one meter in the one order: the start, readings, values of services with a whole day, changes of the
// meter (identical ones once).
std::vector<MeterEvent> meter_events(const Machine& machine, const Meter& meter, std::span<const Fact> facts);

}  // namespace service

#pragma GCC visibility pop
