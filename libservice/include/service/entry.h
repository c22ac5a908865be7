// Entering facts: from what somebody says to facts in the book, and what they changed. Also what takes facts back, and
// what is wrong with a book as a whole.
//
//   EntryRequest request = entry_of("reading", {fact}, today);
//   Entered entered = enter(fleet, record, request, writer);     // judged, stamped, stored, compared: or a Failure
//   for (const PointChange& change : entered.changes) ...
//
// Everything is decided here and nothing is worded: values in, values out. What is refused comes as diagnostics, whose
// cures say what could be done, with which values.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "service/base.h"
#include "service/due_list.h"
#include "service/element_label.h"
#include "service/fleet.h"
#include "service/record.h"
#include "service/snapshot.h"

#pragma GCC visibility push(default)

namespace service {

// --- Entering ----------------------------------------------------------------------------------------------

// Who enters facts. Clock and chance are the caller's, for the library has neither. Both are asked while nobody else
// can write, so commands stand in the book in the order in which they were stored.
struct Writer {
  std::string name;
  std::function<std::int64_t()> milliseconds;          // since 1970, UTC
  std::function<std::array<std::uint8_t, 10>()> draw;  // bytes that nobody else will draw
};

// The stamp of these proposals at this moment. A strike holds only where its id is later than that of what it strikes,
// so a clock that went back does not matter to it.
Stamp stamp_of(const Writer& writer, std::string origin, std::span<const Proposal> proposals);

// Finds the facts to enter. Called while nobody else can write, with what the book holds of the request's scope (and of
// its kin, where their kind is not kept); what it throws ends the entry, and nothing is stored.
using Propose = std::function<std::vector<Proposal>(const Extract& known)>;

struct EntryRequest {
  std::string origin;  // what the facts come from: a command, or `import FILE`
  Scope scope;         // machines that the facts are about, by whose facts they are judged
  Propose propose;
  Day today;                  // a fact of a later day is a plan, and refused
  bool day_is_given = false;  // else it came off a clock
  bool skip_bad = false;      // store what is right, and hand back what is refused
  bool dry_run = false;       // decide everything, store nothing
  bool asks_ahead = false;    // `propose` asks what would be expected with facts added: all of the kinds is read then

  // Of a file: rows that could not be read. They are told together with what the judge refuses, so that a file is
  // mended in one go.
  std::vector<Diagnostic> unread = {};
  // Called with `skip_bad` before anything is stored, where something will be left out. What it throws ends the entry.
  std::function<void()> before_leaving_out = {};
  // How far it is with working out what was changed.
  Progress comparing = {};
};

// Just these facts.
EntryRequest entry_of(std::string origin, const std::vector<Fact>& facts, Day today, bool day_is_given = false);

// What a meter showed.
struct ShownOn {
  Amount shown;  // by the meter itself
  Day day;
  friend bool operator==(const ShownOn&, const ShownOn&) = default;
};

// A service that the book tells of already: of the same task and position, so near by days or use that somebody most
// likely wrote down one service twice. Both stand; on one day they count as one.
struct WrittenTwice {
  Fact earlier;  // entered earlier, though it may be of the later day
  Fact later;

  bool same_day() const { return earlier.on.first == later.on.first; }
  // One of the two is of all positions, and the other of one: only there is it double.
  bool at_one_position() const { return earlier.position != later.position; }
  // The one that can be struck and nothing else goes with it; none where that would take more than what is double.
  const Fact* spare() const;
};

// A meter by which services come due again, or their checks, and of which nobody told what it showed on that day: their
// use counts from the reading before.
struct UntoldValue {
  std::string machine;
  std::string meter;
  std::string unit;
  std::vector<std::string> tasks;  // those services
  Day on;
  std::optional<ShownOn> last;  // the reading before; none: their use is not known at all
};

// A value that is hard to believe of its meter, and that another meter of the machine may show, undoubted.
struct MeterMeant {
  FactId fact;
  Cure meter;  // `other_meter`
};

// A value of the book that was hard to believe until then and is not any more: confirmed, or read on from.
struct EndedDoubt {
  std::string machine;
  std::string meter;
  std::string unit;
  FactId fact;  // of the value
  Day on;
  Amount shown;
};

// The first value known of a meter, where it is possible and far above what any other machine of the kind has run; of
// an hour meter where none of them was read, above ten years by day and night. Nothing of its own speaks against it, so
// it is no doubtful reading; but a true value after it would be refused as lower.
struct HighFirstValue {
  std::string machine;
  std::string meter;
  std::string unit;
  FactId fact;
  Day on;
  Amount shown;
  std::string most_used;  // the other machine of its kind that has run most; empty: none was read
  Amount most;            // and how much
};

// What was entered, or with a dry run would be. Everything in it stays valid as long as it or a copy of it lives.
struct Entered {
  Day today;
  bool dry_run = false;
  std::vector<Fact> added;
  bool own_ids = true;                    // this entry drew the ids of all that it added
  int already_there = 0;                  // how many were in the book, and were left out
  std::vector<Diagnostic> refused;        // with `skip_bad`: what is wrong with what was left out, unread rows too
  std::vector<std::size_t> refused_rows;  // and which of the proposals those are
  std::vector<std::string> said;          // what was understood beyond the plain facts, such as a roll-over

  // What they change, within the machines that they are about.
  std::vector<std::string> machines;  // of a strike, those of what it strikes; in order
  std::shared_ptr<const DueList> before;
  std::shared_ptr<const DueList> after;
  std::vector<PointChange> changes;   // point into the two lists
  std::vector<HeadingChange> moves;   // likewise
  std::vector<SeenSign> seen;         // to be looked at, newly or as the added facts say again
  std::vector<SeenSign> answered;     // no more to be looked at
  std::vector<WrittenTwice> twice;    // where what was added is one of the two
  std::vector<Gap> doubts;            // about values of meters that are read or counted by: added, and what stands on
  std::vector<FactId> newly_doubted;  // of these, values that were in the book and that nobody doubted before
  std::vector<Gap> ended_gaps;        // what was not known before them
  std::vector<EndedDoubt> ended_doubts;           // that stood before, of the machines that this is about
  std::vector<HighFirstValue> high_first_values;  // of meters of which nothing was known before
  std::vector<MeterMeant> meters_meant;           // of added values that are doubted and came from no file
  std::vector<UntoldValue> untold;                // of services that came from no file

  // The book before and after, for the questions below.
  std::shared_ptr<const std::vector<Fact>> known;
  std::shared_ptr<const Snapshot> was;
  std::shared_ptr<const Snapshot> is;
};

// One transaction: judges, stamps, stores, and compares the due lists before and after.
//
// Fails with what the judge refuses: usage where only names are unknown and the facts came from no file, else bad_data;
// nothing is stored then. Fails as `Record::append` does, and with internal where the request's scope leaves out a
// machine that a proposal is about. Fails with internal, code `stored-not-compared`, where the facts are stored but
// what they changed cannot be told: they must not be entered again.
Entered enter(const std::shared_ptr<const Fleet>& fleet, Record& record, const EntryRequest& request,
              const Writer& writer);

// --- What one fact did -------------------------------------------------------------------------------------

// What a value shown by a meter did to it.
struct MeterStep {
  std::string machine;
  std::string meter;
  std::string unit;
  std::optional<Amount> from;  // what the meter showed last before, up to the same day; none: nothing was known
  Amount to;
  std::optional<Amount> used;  // in between, through changes of the meter; none: not known
  int days = 0;                // in between
};

// Of a reading, or a service with a value; nothing for other facts. Reads the history of the meter each time, so ask it
// of the facts that are shown, not of a whole file.
std::optional<MeterStep> meter_step(const Entered& entered, const Fact& fact);

// The newest value of a meter before and after.
struct NewestReading {
  std::string machine;
  std::string meter;
  std::string unit;
  std::optional<ShownOn> before;
  std::optional<ShownOn> after;
};

// Of each meter that the added facts show a value of, in the order of machines and meters.
std::vector<NewestReading> newest_readings(const Entered& entered);

// How to say that a value is right which is in doubt; nothing where the doubt rests on no fact of this book.
std::optional<Cure> confirmation_of(const Entered& entered, const Gap& doubt);
Cure confirmation_of(const Fact& value, const Machine& machine);

// What a strike strikes; null where the book that was read does not hold it. Lives as long as `entered.known`.
const Fact* target_of(const Entered& entered, const Fact& strike);

// What to write on the element that an added service put in. Nothing where the service puts in neither parts nor
// fluids: there is nothing to write on.
std::optional<ElementLabel> element_label(const Fact& service, const Fleet& fleet);

// The checks that the added services ask for, and that are still owed. Points into `entered.after`.
std::vector<const Point*> checks_owed(const Entered& entered);

// Whether an added service was done with automatic start locked off, so that it must go back on.
bool was_locked_off(const Entered& entered);

// --- What is to be minded of it ----------------------------------------------------------------------------

// Use that a meter shows of a machine which was laid up or out of use on the day of the value.
struct RunNotInUse {
  const Machine* machine = nullptr;
  const Meter* meter = nullptr;
  FactId fact;     // of the value
  UseState state;  // on its day
  Amount used;     // since the value before it
  Day from;        // of the value before it
  Day to;
  // That one was shown when the machine stood already; else some of the use may be of the days before it stood.
  bool all_of_it = true;
  bool still = true;  // it is not in use on the day asked about either
};

// Of the readings and services with a value among what was added, in the order of machines, meters and days. A lay-up
// that somebody has ended since is nothing to be told: whoever told of its end later may not know the day.
std::vector<RunNotInUse> run_not_in_use(const Entered& entered);

// A measured value that stood at its limit or beyond, or so near that it was to be measured again, and that counts no
// more since an added service: that says that what was measured was renewed, or put right, but where it found it worn
// or failed and put in nothing new. Whoever only looked at it has to write the value down again.
struct EndedValue {
  std::string machine;
  std::string task;      // whose limit it is
  std::string position;  // where it was measured, else where the service was done; empty: nowhere in particular
  std::string name;
  std::string unit;
  Measure value;
  Measure limit;
  bool above = true;       // the limit is reached by what lies above it
  bool reached = false;    // at its limit or beyond; else near it
  Day on;                  // of the measurement
  FactId fact;             // likewise
  Fact again;              // the same value behind the service; its unit is left out where it goes without saying
  bool found_bad = false;  // the service found it worn or failed and renewed nothing: it is to be measured again
};

// In the order of the list before. A value that an added one took the place of is left out.
std::vector<EndedValue> ended_values(const Entered& entered);

// An added look that found good what nobody had seen of that machine, what was answered already, or what was seen on a
// later day alone: it may be another machine that was meant, or another day.
struct LookAtNothing {
  const Fact* look = nullptr;         // points into `entered.added`
  std::vector<std::string> machines;  // others of its kind of which that sign is open, in the order of the fleet file
  std::optional<Day> seen_later;      // it is open of this machine, and was seen first on that day, after the look
};

std::vector<LookAtNothing> looks_at_nothing(const Entered& entered);

// What an added delay does not put off though its task covers it: what never waits, and is due or worse, without record
// or with something unknown. In the order of the list; points into `entered.after`.
std::vector<const Point*> not_put_off(const Entered& entered);

// Machines in use of which something that never waits is overdue now and was not before, but for those that nobody may
// run anyway (`bans_after`). Somebody has to decide whether they may run.
std::vector<const Machine*> unsafe_now(const Entered& entered);

// --- Facts to propose --------------------------------------------------------------------------------------

// The checks that services ask for afterwards, as done with them, each once: their own, and those of the tasks that
// they cover. They are to be entered behind all the services, for a later service asks for its checks anew.
std::vector<Fact> checks_after(const Fleet& fleet, const Machine& machine, std::span<const Fact> services);

// Until when something is put off, by use: so much more, or what the meter will show.
struct UseUntil {
  bool more = false;
  Amount amount;
  std::string unit;  // may be empty where it is `more`
};

enum class UseProblem {
  no_meter,       // the task does not come due by use: where nobody may ever read a meter a delay would not end
  other_unit,     // than the meter counts in
  nothing_known,  // of the meter's usage, so the delay has no end
  already_shown,  // the meter shows as much already
};

// The usage at which a delay ends, or why there is none.
struct PutOffEnd {
  std::optional<Amount> usage;
  UseProblem problem = UseProblem::no_meter;  // where there is no usage
  const Meter* meter = nullptr;               // by which the task comes due; the machine's
  Amount shown;                               // of `already_shown`: what the meter shows now
};

// Of a task of a machine on the day of the snapshot. An empty position means any.
PutOffEnd put_off_end(const Snapshot& now, const Machine& machine, std::string_view task, std::string_view position,
                      const UseUntil& until);

// What laying up, taking out of use or bringing back does to a machine on that day.
struct UseChange {
  UseState before;                // on that day
  bool changes = true;            // false: it is so already, with the same return planned
  bool stays_out_of_use = false;  // laid up, and yet unsafe until somebody says that it is back
};

// `told`: the fact laid-up, out-of-use or back that is to be entered.
UseChange use_change(const std::shared_ptr<const Fleet>& fleet, const Extract& known, const Machine& machine,
                     const Fact& told);

// --- Taking back -------------------------------------------------------------------------------------------

// The fact that somebody means: its full id, or the short form where exactly one answers to it.
struct FactNamed {
  std::optional<FactId> id;
  std::vector<FactId> several;  // those that answer to it, where it is more than one
  std::string near;             // where it is none: "did you mean ...", or empty
};

FactNamed fact_named(std::string_view written, const std::vector<Fact>& book);

Fact strike_of(const FactId& id, Day on, std::string note = {});

// What is to be known of a command to decide whether it can be taken back.
struct CommandInBook {
  CommandId id;
  std::int64_t entered = 0;
  std::string entered_by;
  std::string origin;
  std::vector<Fact> standing;  // those of its facts that nobody struck, in the one order; at least one
};

// Commands of which something stands, the newest first: by `entered`, then by id.
std::vector<CommandInBook> standing_commands(const std::vector<Fact>& book);

struct UndoAsk {
  std::string who;                 // asks; entries without a name count as one person's
  std::int64_t now = 0;            // milliseconds since 1970, off the real clock
  std::optional<CommandId> meant;  // named by who asks: then it is taken back, whosever and however old it is
};

enum class UndoVerdict {
  take_back,
  ask_first,         // it is likelier a slip than a wish: show it, and let it be named
  none_of_ones_own,  // there is only what others entered
  nothing_there,     // of what could be taken back
  unknown_command,   // what was named is not in the book, or nothing of it stands
};

enum class UndoReason { someone_elses, file, old };  // a file of more than one fact; entered more than a day ago

struct Undo {
  UndoVerdict verdict = UndoVerdict::nothing_there;
  UndoReason reason = UndoReason::someone_elses;  // of `ask_first`
  std::optional<CommandInBook> command;           // what would be taken back; none where none is one's own
  std::optional<CommandInBook> own;               // where that is someone else's: one's own newest
};

// Which command `undo` takes back: the newest that stands, where it is one's own, of the last day, and no file of many
// facts. Passed over are commands that are an `undo` themselves, so that two of them take back two commands, and those
// that came with another copy of the book, where whoever gave them can take them back.
Undo decide_undo(const std::vector<Fact>& book, const UndoAsk& ask);

// True where `undo` takes this back only by name.
bool is_file_of_many(std::string_view origin, std::size_t facts);

// The command by which `undo` can take back what was entered; nothing where it came with ids of other commands.
std::optional<CommandId> command_of(const Entered& entered);

// --- Other people's facts ----------------------------------------------------------------------------------

// Where two copies of a book contradict each other and neither did alone, as far as the added facts have part in it.
std::vector<Gap> newly_contradicted(const Entered& merged);

// False where facts are about machines, and none of those is in the fleet: the book of another fleet.
bool about_this_fleet(const Fleet& fleet, const std::vector<Fact>& facts);

// The machines that rows of a file are judged by. Strikes may be about any.
Scope scope_of_rows(const std::vector<FactRow>& rows);

// Every service of the file was told of long after it was done, but where its row says so or not itself, or where it
// came with an id of its own.
void take_as_history(FactsRead& read);

// A file of facts as a request: all rows or none, or the good ones with `skip_bad`.
EntryRequest entry_of_file(const FactsRead& read, std::string origin, Day today, bool day_is_given, bool skip_bad);

// The header and the bad rows as they were written, in the order of the file, to be mended and imported.
// `refused_rows`: those that `enter` left out.
std::string rejects_of(const FactsRead& read, const std::vector<std::size_t>& refused_rows);

// --- Checking ----------------------------------------------------------------------------------------------

// Of the machines of a snapshot, in the order of the fleet file, then of the facts. Two services of a task, at the same
// position or one of them at all, one after the other. They are near within 3 days, or half the shortest calendar limb
// of the interval after the first where that is less; where both have a value on the meter of its shortest usage limb
// also within a tenth of that and half its shortest calendar limb, and never where half of it or more was used in
// between. Two are two where a sign of the task was seen between them. Services of which only the month or year is
// known, and checks, are left out.
std::vector<WrittenTwice> written_twice(const Snapshot& snapshot);

// What is wrong with a fact of the book, or with the book where it names none.
struct FactDiagnostic {
  std::optional<Fact> fact;
  Diagnostic what;
};

// Judges a whole book again beside the fleet files of today, which may have changed; finds contradictions, a clock that
// is behind, doubtful readings, what was written down twice, values that healed. `facts`: the whole book.
std::vector<FactDiagnostic> check_book(const std::shared_ptr<const Fleet>& fleet, const std::vector<Fact>& facts,
                                       Day today, bool day_is_given);

// All that is wrong or odd: what the fleet files leave to be remarked (with `strict` odd intervals too), what is
// damaged in the record, and `check_book` of what can be read of it. A null fleet, whose files cannot be read, is no
// reason not to look at the record. Diagnostics of the record name no place; those of files do.
std::vector<FactDiagnostic> check_all(const std::shared_ptr<const Fleet>& fleet, const Legible& book, Day today,
                                      bool day_is_given, bool strict);

}  // namespace service

#pragma GCC visibility pop
