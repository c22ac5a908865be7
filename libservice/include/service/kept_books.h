// Condensed books of machines, kept in the record beside the facts: with them a list reads no history.
#pragma once

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
  explicit BookKeeper(const Fleet& fleet) : fleet_(fleet) {}

  bool wants(const std::string& machine) const override;
  bool holds(const KeptState& state) const override;
  std::string work_out(const std::string& machine, const FactTally& facts,
                       const std::vector<Fact>& unstruck) const override;

  // Nothing where it does not hold.
  std::optional<Condensed> book(const KeptState& state) const;

  // Nothing either where it does not answer for that day: the machine is yet to come, or has later facts.
  std::optional<Condensed> book_on(const KeptState& state, Day day) const;

 private:
  const Fleet& fleet_;
};

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

// A machine of which the kept book is not what would be worked out now, and why.
struct OddBook {
  enum class Why {
    missing,  // there is none yet
    stale,    // of other fleet files or of another version of this program: not used
    spoilt,   // damaged, or of other facts: not used
    differs   // whole, and something else comes out of the facts on this computer
  };
  std::string machine;
  Why why = Why::missing;
};

std::string_view to_text(OddBook::Why why);

// All books worked out anew and compared, in the order of the machines' keys. `facts`: the whole undamaged record, of
// the same moment as the states.
std::vector<OddBook> odd_books(const Fleet& fleet, const std::vector<Fact>& facts,
                               const std::vector<KeptState>& states);

// Of those that are spoilt or differ; what is stale or missing is nobody's mistake.
std::vector<Diagnostic> remarks_on(const std::vector<OddBook>& unused);

}  // namespace service

#pragma GCC visibility pop
