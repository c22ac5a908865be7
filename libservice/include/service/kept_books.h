// Condensed books of machines, kept in the record beside the facts: with them a list reads no history. And what kinds
// of machines have taught, kept beside these: with that nothing is learnt anew, and nobody reads of a machine's kin.
#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "service/due_list.h"
#include "service/fleet.h"
#include "service/kept_state.h"
#include "service/machine_book.h"
#include "service/record.h"
#include "service/snapshot.h"

#pragma GCC visibility push(default)

namespace service {

// For `Record::append`. A book holds for the very fleet files and the very program by which it was worked out, and for
// the facts that it tells of. Of a fleet that was not read from files nothing is kept, and nothing used. The fleet must
// outlive it.
class BookKeeper : public StateKeeper {
 public:
  // What is worked out can be asked for afterwards (`take_worked_out_on`) only where it is held, which takes memory.
  enum class Hold { nothing, what_is_worked_out };

  explicit BookKeeper(const Fleet& fleet, Hold hold = Hold::nothing);

  bool wants(const std::string& machine) const override;
  bool holds(const KeptState& state) const override;
  std::string work_out(const std::string& machine, const FactTally& facts,
                       const std::vector<Fact>& unstruck) const override;

  std::uint64_t seal_of(const KeptState& state) const override;

  // The kinds of the fleet, by schedule.
  std::vector<KeptGroup> groups() const override;
  bool holds_together(const KeptGroup& group) const override;
  std::string work_out_together(const KeptGroup& group, const std::vector<KeptState>& states) const override;

  // Nothing where it does not hold.
  std::optional<Condensed> book(const KeptState& state) const;
  std::shared_ptr<const LearntKind> kind(KeptGroup&& group) const;

  // The kinds that it has worked out, of all facts of their machines, whatever their days.
  const LearntKinds& learnt() const { return learnt_; }

  // What it has worked out of all facts of machines, for `Extract::derived_beside`: of those of which that answers for
  // the day. It holds them no longer.
  DerivedStates take_worked_out_on(Day day);

  // Nothing either where it does not answer for that day: the machine is yet to come, or has later facts.
  std::optional<Condensed> book_on(const KeptState& state, Day day) const;

  // The machine among its kind; nothing where what is kept of the kind does not answer for that day, whatever is kept
  // of the others.
  std::optional<KeptMember> member_on(const KeptState& state, Day day) const;

 private:
  // A machine is in the fleet on that day, and has no later facts.
  bool answers_for(const std::string& machine, const std::optional<Day>& newest, Day day) const;

  struct WorkedOut {
    std::optional<Day> newest;
    std::shared_ptr<const Derived> derived;
  };

  const Fleet& fleet_;
  Hold hold_;
  std::uint64_t inputs_;  // a checksum of fleet files and program; of a fleet that was not read from files it is none
  mutable LearntKinds learnt_;
  mutable std::map<std::string, WorkedOut, std::less<>> worked_out_;
};

// What the record keeps of the kinds in a scope, as far as that holds on the day: none of their facts is after it.
LearntKinds kept_kinds(const Fleet& fleet, const Record& record, const Scope& scope, Day as_of);

// What a list of what is due, overdue or not known needs of a record: of each machine its condensed book where that
// holds on the day asked about, else its facts. The list is the same as of `take_snapshot`, and fails alike; but damage
// to facts that nobody had to read goes unseen until `check`. Answers that need all facts (`Snapshot::facts_of`) fail
// with internal.
Snapshot take_list_snapshot(std::shared_ptr<const Fleet> fleet, const Record& record, Day as_of, bool day_is_given,
                            const Scope& scope = {});

// The due list of what a record holds: `due_list` of `take_list_snapshot`, read kind by kind and machine by machine. Of
// the record a few books are held at a time, and what the kind at hand teaches, so with `DueAsk::keep` a list takes as
// much memory as what it keeps, however long the books are. It fails as `take_list_snapshot` does. Where somebody
// writes meanwhile, each kind is told as of one moment, and the kinds of a fleet of more than ten thousand machines as
// of moments that follow each other.
DueList due_list_of(const Record& record, std::shared_ptr<const Fleet> fleet, Day as_of, bool day_is_given,
                    const Scope& scope, const DueAsk& ask);

// The same by a forecaster that learns from nobody.
DueList due_list_of(const Record& record, std::shared_ptr<const Fleet> fleet, Day as_of, bool day_is_given,
                    const Scope& scope, const DueAsk& ask, const Forecaster& forecaster);

// As `take_snapshot` and `take_fleet_snapshot`, with what the record keeps of kinds: answers are the same, and sooner
// there. Of machines beside those of the scope the facts are read only where their kind is to be learnt.
Snapshot take_learnt_snapshot(std::shared_ptr<const Fleet> fleet, const Record& record, Day as_of, bool day_is_given,
                              const Scope& scope = {});
Snapshot take_learnt_fleet_snapshot(std::shared_ptr<const Fleet> fleet, const Record& record, Day as_of,
                                    bool day_is_given, const Scope& scope = {});

// A machine of which the kept book is not what would be worked out now, and why.
struct OddBook {
  enum class Why {
    missing,  // there is none yet
    stale,    // of other fleet files or of another version of this program (a kind: or of other books): not used
    spoilt,   // damaged (a book: or of other facts): not used
    differs   // whole, and something else comes out of the facts (a kind: of the books) on this computer
  };
  std::string machine;
  Why why = Why::missing;
};

// The same of a kind.
struct OddKind {
  std::string schedule;
  OddBook::Why why = OddBook::Why::missing;
};

std::string_view to_text(OddBook::Why why);

// All books worked out anew and compared, in the order of the machines' keys. `facts`: the whole undamaged record, of
// the same moment as the states.
std::vector<OddBook> odd_books(const Fleet& fleet, const std::vector<Fact>& facts,
                               const std::vector<KeptState>& states);

// All kinds learnt anew from the books that are kept, and compared; by schedule. Facts and books are of one moment.
std::vector<OddKind> odd_kinds(const Fleet& fleet, const std::vector<Fact>& facts, const KeptBeside& kept);

// Of those that are spoilt or differ; what is stale or missing is nobody's mistake.
std::vector<Diagnostic> remarks_on(const std::vector<OddBook>& odd);
std::vector<Diagnostic> remarks_on(const std::vector<OddKind>& odd);

}  // namespace service

#pragma GCC visibility pop
