// A kept book is its bytes (`packed`) behind what they were worked out by and from: a seal over all that follows, the
// fleet files and the program, and the machine's facts.
#include "service/kept_books.h"

#include <algorithm>
#include <array>
#include <functional>
#include <map>
#include <utility>

#include "base/checksum.h"
#include "base/eight_bytes.h"
#include "standing/gaps.h"
#include "standing/held_kinds.h"
#include "standing/kept_inputs.h"
#include "standing/packed.h"

namespace service {
namespace {

struct Behind {
  std::uint64_t inputs = 0;
  FactTally facts;
  friend bool operator==(const Behind&, const Behind&) = default;
};

constexpr std::size_t behind_size = 5 * eight_bytes;  // without the seal

std::string to_bytes(const Behind& behind) {
  std::string bytes;
  add_eight_bytes(bytes, behind.inputs);
  add_eight_bytes(bytes, static_cast<std::uint64_t>(behind.facts.facts));
  add_eight_bytes(bytes, behind.facts.checksums);
  add_eight_bytes(bytes, behind.facts.newest ? 1 : 0);
  const Day newest = behind.facts.newest.value_or(Day{});
  add_eight_bytes(bytes, static_cast<std::uint64_t>(std::int64_t{newest.time_since_epoch().count()}));
  return bytes;
}

// Takes it off the front; nothing where the seal is broken.
std::optional<Behind> take_behind(std::string_view& bytes) {
  if (bytes.size() < eight_bytes + behind_size) return std::nullopt;
  if (take_eight_bytes(bytes) != checksum_of(bytes)) return std::nullopt;
  Behind behind;
  behind.inputs = take_eight_bytes(bytes);
  behind.facts.facts = static_cast<std::int64_t>(take_eight_bytes(bytes));
  behind.facts.checksums = take_eight_bytes(bytes);
  const bool has_day = take_eight_bytes(bytes) != 0;
  const auto day = static_cast<std::int64_t>(take_eight_bytes(bytes));
  if (has_day) behind.facts.newest = Day{std::chrono::days{static_cast<int>(day)}};
  return behind;
}

// The unstruck facts of each machine, in the one order.
std::map<std::string, std::vector<Fact>, std::less<>> by_machine(const std::vector<Fact>& facts) {
  std::map<std::string, std::vector<Fact>, std::less<>> all;
  for (Fact& fact : unstruck(facts)) {
    if (!fact.machine.empty()) all[fact.machine].push_back(std::move(fact));
  }
  return all;
}

// In one view of the record: the kinds that hold, and the facts of machines whose state is not taken.
Extract beside(const BookKeeper& keeper, const Fleet& fleet, const Record& record, const Scope& scope, Day as_of,
               const std::function<bool(const KeptState& state)>& take) {
  Extract extract;
  record.in_one_view([&] {
    HeldKinds kinds(keeper, fleet, scope, as_of);
    // Of some machines it must be known first whether their kin is to be read; of all, their states go by but once.
    if (scope.machines) extract.kinds = kinds.of_their_states(record);
    extract.read = to_be_read(fleet, record, scope, extract.kinds);
    extract.facts = record.facts_beside(extract.read, [&](const KeptState& state) {
      if (!scope.machines) kinds.note(state);
      return take(state);
    });
    if (!scope.machines) extract.kinds = kinds.of_noted(record);
    extract.newest = record.newest_day();
  });
  return extract;
}

}  // namespace

BookKeeper::BookKeeper(const Fleet& fleet, Hold hold)
    : fleet_(fleet), hold_(hold), inputs_(fleet.files_checksum ? inputs_of(fleet) : 0) {}

bool BookKeeper::wants(const std::string& machine) const {
  return fleet_.files_checksum && fleet_.machine(machine) != nullptr;
}

bool BookKeeper::holds(const KeptState& state) const {
  if (!wants(state.machine)) return false;
  std::string_view bytes = state.bytes;
  return take_behind(bytes) == Behind{inputs_, state.facts};
}

std::string BookKeeper::work_out(const std::string& machine, const FactTally& facts,
                                 const std::vector<Fact>& unstruck) const {
  const Machine& its = *fleet_.machine(machine);
  auto all = std::make_shared<const Derived>(worked_out_of(fleet_, its, unstruck));
  const std::string rest = to_bytes({inputs_, facts}) + packed(condensed(fleet_, its, unstruck, *all));
  if (hold_ == Hold::what_is_worked_out) worked_out_[machine] = {facts.newest, std::move(all)};
  std::string bytes;
  add_eight_bytes(bytes, checksum_of(rest));
  return bytes + rest;
}

// Of one that holds: a checksum of the rest of it.
std::uint64_t BookKeeper::seal_of(const KeptState& state) const {
  std::string_view bytes = state.bytes;
  return take_eight_bytes(bytes);
}

std::optional<Condensed> BookKeeper::book(const KeptState& state) const {
  if (!holds(state)) return std::nullopt;
  return unpacked(std::string_view(state.bytes).substr(eight_bytes + behind_size), *fleet_.machine(state.machine));
}

bool BookKeeper::answers_for(const std::string& machine, const std::optional<Day>& newest, Day day) const {
  const Machine* its = fleet_.machine(machine);
  if (its == nullptr || is_to_come(*its, day)) return false;
  return !newest || *newest <= day;  // else not all was known then
}

std::optional<Condensed> BookKeeper::book_on(const KeptState& state, Day day) const {
  return answers_for(state.machine, state.facts.newest, day) ? book(state) : std::nullopt;
}

DerivedStates BookKeeper::take_worked_out_on(Day day) {
  DerivedStates all;
  for (auto& [machine, worked_out] : worked_out_) {
    if (answers_for(machine, worked_out.newest, day)) all.emplace(machine, std::move(worked_out.derived));
  }
  worked_out_.clear();
  return all;
}

Snapshot take_list_snapshot(std::shared_ptr<const Fleet> fleet, const Record& record, Day as_of, bool day_is_given,
                            const Scope& scope) {
  const BookKeeper keeper(*fleet);
  std::vector<Fact> bearing;
  DerivedStates derived;
  Extract extract = beside(keeper, *fleet, record, scope, as_of, [&](const KeptState& state) {
    auto book = keeper.book_on(state, as_of);
    if (!book) return false;
    std::move(book->facts.begin(), book->facts.end(), std::back_inserter(bearing));
    derived.emplace(state.machine, std::make_shared<const Derived>(std::move(book->derived)));
    return true;
  });
  std::move(bearing.begin(), bearing.end(), std::back_inserter(extract.facts));
  extract.derived = std::move(derived);
  return {std::move(fleet), std::move(extract), as_of, day_is_given, scope};
}

Snapshot take_learnt_snapshot(std::shared_ptr<const Fleet> fleet, const Record& record, Day as_of, bool day_is_given,
                              const Scope& scope) {
  const BookKeeper keeper(*fleet);
  Extract extract = beside(keeper, *fleet, record, scope, as_of, [](const KeptState&) { return false; });
  return {std::move(fleet), std::move(extract), as_of, day_is_given, scope};
}

Snapshot take_learnt_fleet_snapshot(std::shared_ptr<const Fleet> fleet, const Record& record, Day as_of,
                                    bool day_is_given, const Scope& scope) {
  return take_learnt_snapshot(std::move(fleet), record, as_of, day_is_given).within(scope);
}

std::string_view to_text(OddBook::Why why) {
  constexpr std::array<std::string_view, 4> names{"missing", "stale", "spoilt", "differs"};  // as the enumerators
  return names[static_cast<std::size_t>(why)];
}

std::vector<Diagnostic> remarks_on(const std::vector<OddBook>& odd) {
  std::vector<Diagnostic> remarks;
  for (const OddBook& book : odd) {
    const std::string kept =
        "what is kept of machine " + cleaned(book.machine) + ", so that lists need not read all its facts, ";
    if (book.why == OddBook::Why::spoilt) {
      remarks.push_back({"spoilt-book", kept + "is damaged; it is not used, and the facts are whole",
                         "look at the disk; the next entry makes it anew", std::nullopt, Severity::remark});
    } else if (book.why == OddBook::Why::differs) {
      remarks.push_back({"other-book",
                         kept + "is not what this computer works out of its facts; lists go by what is kept",
                         "write something down of that machine, which makes it anew; where it is said again, please "
                         "report it",
                         std::nullopt, Severity::remark});
    }
  }
  return remarks;
}

std::vector<OddBook> odd_books(const Fleet& fleet, const std::vector<Fact>& facts,
                               const std::vector<KeptState>& states) {
  const BookKeeper keeper(fleet);
  std::map<std::string_view, const KeptState*> kept;
  for (const KeptState& state : states) kept.emplace(state.machine, &state);
  std::vector<OddBook> odd;
  for (const auto& [machine, its] : by_machine(facts)) {
    if (!keeper.wants(machine)) continue;
    const auto found = kept.find(machine);
    if (found == kept.end()) {
      odd.push_back({machine, OddBook::Why::missing});
      continue;
    }
    const KeptState& state = *found->second;
    std::string_view bytes = state.bytes;
    const auto behind = take_behind(bytes);
    if (behind && behind->inputs != inputs_of(fleet)) {
      odd.push_back({machine, OddBook::Why::stale});
    } else if (!keeper.holds(state)) {
      odd.push_back({machine, OddBook::Why::spoilt});
    } else if (keeper.work_out(machine, state.facts, its) != state.bytes) {
      odd.push_back({machine, OddBook::Why::differs});
    }
  }
  return odd;
}

}  // namespace service
