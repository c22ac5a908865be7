// The record: the book of facts. Facts are appended and never edited; a wrong one is struck and stays legible.
//
// Each command that writes gets one 16-byte, time-ordered id; its facts are that id and a number. Two copies of a
// record merge by union, so ids are never reused and every listing has one order: effective day, entered, id.
//
// Storage is one SQLite file. "Saved" may be said when `Record::append` has returned, and not before.
#pragma once

#include <array>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "service/base.h"

#pragma GCC visibility push(default)

namespace service {

// --- Ids ---------------------------------------------------------------------------------------------------

// 48 bits of milliseconds since 1970 (UTC), then 80 bits that nobody else will draw. Its text is 26 characters of
// lower-case Crockford base 32 (no i, l, o, u), which sorts as the bytes do.
struct CommandId {
  std::array<std::uint8_t, 16> bytes{};
  friend auto operator<=>(const CommandId&, const CommandId&) = default;
};

CommandId make_command_id(std::int64_t milliseconds, const std::array<std::uint8_t, 10>& drawn);
std::int64_t milliseconds_of(const CommandId& id);
std::string to_text(const CommandId& id);
std::optional<CommandId> parse_command_id(std::string_view text);

struct FactId {
  CommandId command;
  int number = 0;  // from 1 within its command
  friend auto operator<=>(const FactId&, const FactId&) = default;
};

std::string to_text(const FactId& id);  // 26 characters, '-', number
std::optional<FactId> parse_fact_id(std::string_view text);

// The shortest name by which people may call a fact: the last six characters of the command, '-', number.
std::string short_text(const FactId& id);

// --- Facts -------------------------------------------------------------------------------------------------

// Their order is stored: new ones go to the end.
enum class FactKind {
  reading,
  service,
  sign,
  measurement,
  meter_change,
  put_off,
  laid_up,
  out_of_use,
  back,
  count,
  strike,
  looked_at
};

inline constexpr std::size_t kind_count = 12;

std::string_view to_text(FactKind kind);  // as in files: `meter-change`
std::optional<FactKind> parse_fact_kind(std::string_view text);

enum class Found { good, worn, failed };  // the order is stored

std::string_view to_text(Found found);
std::optional<Found> parse_found(std::string_view text);

// One fact, flat as it travels in CSV and JSON Lines. What a kind does not use is empty. Needs and may-haves by kind:
//
//   reading       machine, on (a whole day), at               | meter, sure
//   service       machine, on, task                           | at, meter, position, found, by, note, sure, history
//   sign          machine, on, name                           | note
//   looked-at     machine, on, name, note                     | found (good unless told), by
//   measurement   machine, on (a whole day), name, value      | unit, position
//   meter-change  machine, on (a whole day), last, first      | meter, sure
//   put-off       machine, on, task, and until or at          | position, by, note
//   laid-up, out-of-use, back   machine, on                   | until (laid-up), note
//   count         part, on, value                             |
//   strike        strikes                                     | on, note
//
// Texts are UTF-8 of at most 10,000 bytes without control characters (a note may hold line breaks and tabs). Amounts
// are not negative. A strike has a later id than what it strikes; whoever makes the id sees to that, whatever his clock
// says.
struct Fact {
  FactKind kind = FactKind::reading;
  std::string machine;
  DaySpan on;                // of a strike that names no day: DaySpan{}
  std::string meter;         // empty: the machine's first meter
  std::optional<Amount> at;  // a value shown by the meter; of a put-off: a usage
  std::string task;          // `task`, or `task/check` for a follow-up
  std::string position;      // empty: all positions of the task
  std::string name;          // of a sign or a measurement
  std::optional<Measure> value;
  std::string unit;
  std::optional<Amount> last;   // meter-change: what the old meter showed
  std::optional<Amount> first;  // meter-change: what the new one shows
  std::optional<Day> until;
  std::string part;
  std::optional<Found> found;
  std::string by;
  std::string note;
  bool sure = false;     // whoever entered it means a value that is unlike the meter
  bool history = false;  // a service told of long after it was done
  std::optional<FactId> strikes;

  // How it came into the book.
  FactId id;
  std::int64_t entered = 0;  // milliseconds since 1970, UTC
  std::string entered_by;
  std::string origin;      // the command, or the name of the file it was imported from
  bool from_copy = false;  // its command was given elsewhere, and came with another copy of the book; not exported
};

// False only for a strike that names no day.
bool has_day(const Fact& fact);

// The one order of facts: effective day (the first day of its span), then entered, then id.
bool before(const Fact& a, const Fact& b);

// Equal in everything but how it came into the book.
bool same_content(const Fact& a, const Fact& b);

// A text that is equal exactly where `same_content` holds, for looking up.
std::string content_key(const Fact& fact);

// Those not struck, in the one order. A strike can be struck. A strike voids its fact whatever day is asked about.
std::vector<Fact> unstruck(std::vector<Fact> facts);

// Which of them (by index) are struck.
std::vector<bool> struck(const std::vector<Fact>& facts);

// The `origin` of the strikes that `undo` adds.
inline constexpr std::string_view undo_origin = "undo";

// --- Facts as files ----------------------------------------------------------------------------------------

struct FactRow {
  Fact fact;
  bool has_id = false;  // it came with `id`, `entered`, ... of its own
  Place place;
  std::string raw;            // the row as it was written, without its line end
  bool says_history = false;  // it says itself, yes or no, whether it was told of later
};

// How a file was read.
struct Understood {
  bool json_lines = false;
  bool utf16 = false;
  char separator = ',';
  Dialect dialect;                // not used on a file with an `id` column, which `export` wrote
  std::string number_settled_by;  // the field that told, `1250,5`; empty where none had to
  std::string dates_settled_by;
};

// What a file of facts says. A row with something wrong is not among `rows`.
struct FactsRead {
  std::vector<FactRow> rows;
  std::vector<Diagnostic> diagnostics;  // in the order of lines, each with its place
  Understood understood;

  // No row can be believed: the header is wrong, or numbers or days can be read in two ways. `diagnostics` says so.
  bool unreadable = false;

  // Rows of a find-out list that nobody filled in: a reading, service or measurement with neither day nor value.
  int blanks = 0;

  // For a file of what was refused: the header as it was written (empty in JSON Lines), and the rows left out,
  // each whole, in their order and without its line end.
  struct Rejected {
    int line = 0;
    std::string raw;
  };
  std::string header;
  std::vector<Rejected> rejected;
};

// CSV (RFC 4180: header row, known columns in any order) or JSON Lines (first character '{'). CSV as spreadsheets save
// it too: ';' or tab between the fields, a byte order mark, UTF-16, decimal commas, days as 13/02/2025. `told` is what
// the user says of numbers and days; what it leaves open is found from the file. A field that a spreadsheet would take
// for a formula may have an apostrophe in front, which is no part of it. Names of machines and tasks are not looked up.
FactsRead read_facts(std::string_view text, const std::string& file, const Dialect& told = {},
                     const Progress& progress = {});

// The whole book of facts in the given order, ids included; importing it into an empty record gives the same record.
// In CSV no field can start a formula in a spreadsheet.
std::string facts_to_csv(const std::vector<Fact>& facts);
std::string facts_to_json_lines(const std::vector<Fact>& facts);

// --- The store ---------------------------------------------------------------------------------------------

// What a question is about: all machines, or these.
struct Scope {
  std::optional<std::vector<std::string>> machines;
  std::string site = {};  // its key, where they are the machines of one site and were asked about as such
  bool holds(std::string_view machine) const;  // the empty name, of facts without a machine, is in every scope
};

enum class Access { read, write };

// What can be read of a record, damaged or not, and what is wrong with it: nothing, for a sound one.
struct Legible {
  std::vector<Fact> facts;  // in the one order
  std::vector<Diagnostic> diagnostics;
};

struct KeptState;  // kept_state.h
struct KeptBeside;
class StateKeeper;

// A book that is read machine after machine, in any order: whoever asks holds no more of it than he keeps. What it
// meets of damage fails with bad_data at once.
class OneByOne {
 public:
  virtual ~OneByOne() = default;

  // The machines of which the record holds a fact, struck or not, in order.
  virtual const std::vector<std::string>& machines() const = 0;

  // Of a machine of which something is recorded, with no bytes where nothing is kept of it.
  virtual std::optional<KeptState> kept(std::string_view machine) = 0;

  // As `Record::kept_of_group`.
  virtual std::string kept_of_group(const std::string& name) = 0;

  // Its facts that nobody struck, in the one order.
  virtual std::vector<Fact> unstruck(std::string_view machine) = 0;
};

// To be used by one thread at a time.
class Record {
 public:
  // Makes an empty record, readable by its owner alone. Fails with bad_data where the file exists, not_found where its
  // folder does not; where it fails nothing is left behind.
  static void create(const std::filesystem::path& file);

  // The same with what `fill` puts in: a record of that name is there whole, with all of it, or not at all. Where
  // `fill` fails, so does this.
  static void create(const std::filesystem::path& file, const std::function<void(Record& record)>& fill);

  // Fails with not_found where there is no such file, bad_data where it is not a record of ours (empty, text, another
  // program's, newer than we know, damaged), busy after `patience` where another program holds it.
  static Record open(const std::filesystem::path& file, Access access,
                     std::chrono::milliseconds patience = std::chrono::seconds(10));

  Record(Record&&) noexcept;
  Record& operator=(Record&&) noexcept;
  ~Record();

  // To be told from now on how far the reading of all facts is, and the storing of many.
  void watch(RecordProgress progress);

  // Facts about machines of the scope, struck ones and strikes included, in the one order. Facts without a machine
  // (counts, strikes) are always there. Fails with bad_data where a row's checksum does not agree.
  std::vector<Fact> facts(const Scope& scope = {}) const;

  // The same without those of machines whose kept state is taken: `take` is given each machine of the scope of which
  // something is recorded. In one view, so that states and facts are of one moment. What is not taken is as good as not
  // there.
  std::vector<Fact> facts_beside(const Scope& scope, const std::function<bool(const KeptState& state)>& take) const;

  // For whoever needs not hold the facts of all machines at once; in one view, which ends when `use` returns. Damage to
  // what nobody asks for goes unseen.
  void one_by_one(const std::function<void(OneByOne& book)>& use) const;

  // Several questions of one moment: what others add between them is not seen.
  void in_one_view(const std::function<void()>& questions) const;

  // The states of those of these machines of which something is recorded, in their order.
  std::vector<KeptState> kept_of(const std::vector<std::string>& machines) const;

  // What is kept of several machines together, by the name of the group; empty where there is nothing.
  std::string kept_of_group(const std::string& name) const;

  // The machines of which the record holds a fact, struck or not, in order.
  std::vector<std::string> machines() const;

  // The newest effective day of all facts that have a day of their own.
  std::optional<Day> newest_day() const;

  // The whole book read past all damage, for `check` and for saving what is left. Looks at the file's structure too.
  // `kept`: to be given all that is kept beside the facts, of the same moment.
  Legible legible(KeptBeside* kept = nullptr) const;

  // A copy, verified and on the disk when this returns, readable by its owner alone. Fails with bad_data where the
  // target exists or the record is damaged; where it fails no target is left behind.
  void backup(const std::filesystem::path& target) const;

  // One IMMEDIATE transaction: reads the facts of the scope, lets `decide` answer with the facts to add, adds them
  // with their ids and commits durably. Where `decide` throws nothing is stored. A dry run decides and stores nothing.
  // Facts whose id is already there are left out; one that is there with another content, or under a command entered
  // otherwise, is bad_data, and so is a fact that breaks the rules at `Fact`. Returns what was added (or would be), in
  // the order of `decide`.
  //
  // What is kept of machines that the facts are about ends with them. Where something was added, `keeper` works out
  // anew, in the same transaction, what he wants kept and does not hold for right.
  std::vector<Fact> append(const Scope& scope, bool dry_run,
                           const std::function<std::vector<Fact>(const std::vector<Fact>& known)>& decide,
                           const StateKeeper* keeper = nullptr);

 private:
  struct Impl;
  explicit Record(std::unique_ptr<Impl> impl);
  static Record open_unnamed(const std::filesystem::path& made, const std::filesystem::path& file);
  std::unique_ptr<Impl> impl_;
};

}  // namespace service

#pragma GCC visibility pop
