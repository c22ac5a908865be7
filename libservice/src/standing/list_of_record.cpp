#include "standing/list_of_record.h"

#include <algorithm>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

#include "service/kept_books.h"
#include "standing/gaps.h"
#include "standing/list_maker.h"
#include "standing/packed.h"

namespace service {
namespace {

// The kept book of a machine where that answers for the day, else its facts: read when it is asked for.
//
// What a kind teaches is asked of all its books before the list asks for each of them. So those of the kind at hand are
// held until then, as far as they are small together; of the facts of others what is left is held, packed.
class BooksOfRecord : public BookSource {
 public:
  BooksOfRecord(const Fleet& fleet, OneByOne& record, Day as_of, std::size_t most_at_hand)
      : fleet_(fleet), keeper_(fleet), record_(record), as_of_(as_of), most_at_hand_(most_at_hand) {}

  // To be learnt from, and asked for once more.
  std::shared_ptr<const MachineBook> book_of(const Machine& machine) const override {
    if (auto held = held_of(machine)) return held;
    if (auto kept = kept_of(machine)) return hold(machine, std::move(kept));
    std::vector<Fact> facts = facts_of(machine.key);
    if (facts_at_hand_ + facts.size() <= most_at_hand_ || is_to_come(machine, as_of_)) {
      return hold(machine, book_with(fleet_, machine, std::move(facts), nullptr));
    }
    Condensed left = condensed(fleet_, machine, facts);
    packed_.emplace(&machine, packed(left));
    return book_from(machine, std::move(left));
  }

  // To be asked for no more.
  std::shared_ptr<const MachineBook> once(const Machine& machine) const {
    if (auto held = held_of(machine)) return held;
    if (auto kept = kept_of(machine)) return kept;
    return book_with(fleet_, machine, facts_of(machine.key), nullptr);
  }

  // The next kind begins.
  void let_go() {
    at_hand_.clear();
    packed_.clear();
    facts_at_hand_ = 0;
  }

  // Up to the day asked about, as a snapshot holds them.
  std::vector<Fact> facts_of(const std::string& machine) const {
    std::vector<Fact> facts = record_.unstruck(machine);
    std::erase_if(facts, [&](const Fact& fact) { return fact.kind == FactKind::strike || fact.on.first > as_of_; });
    return facts;
  }

 private:
  std::shared_ptr<const MachineBook> held_of(const Machine& machine) const {
    if (const auto known = at_hand_.find(&machine); known != at_hand_.end()) return known->second;
    if (const auto known = packed_.find(&machine); known != packed_.end()) {
      return book_from(machine, unpacked(known->second, machine).value());
    }
    return nullptr;
  }

  std::shared_ptr<const MachineBook> kept_of(const Machine& machine) const {
    const auto state = record_.kept(machine.key);
    auto kept = state ? keeper_.book_on(*state, as_of_) : std::nullopt;
    return kept ? book_from(machine, std::move(*kept)) : nullptr;
  }

  // As far as there is room.
  std::shared_ptr<const MachineBook> hold(const Machine& machine, std::shared_ptr<const MachineBook> book) const {
    if (facts_at_hand_ + book->facts().size() > most_at_hand_) return book;
    facts_at_hand_ += book->facts().size();
    at_hand_.emplace(&machine, book);
    return book;
  }

  std::shared_ptr<const MachineBook> book_from(const Machine& machine, Condensed left) const {
    auto derived = std::make_shared<const Derived>(std::move(left.derived));
    return book_with(fleet_, machine, std::move(left.facts), std::move(derived));
  }

  const Fleet& fleet_;
  BookKeeper keeper_;
  OneByOne& record_;
  Day as_of_;
  std::size_t most_at_hand_;
  mutable std::unordered_map<const Machine*, std::shared_ptr<const MachineBook>> at_hand_;
  mutable std::unordered_map<const Machine*, std::string> packed_;
  mutable std::size_t facts_at_hand_ = 0;
};

// The machines of each schedule, in the order of the fleet file.
std::vector<std::vector<const Machine*>> by_kind(const Fleet& fleet) {
  std::map<std::string_view, std::size_t> places;
  std::vector<std::vector<const Machine*>> kinds;
  for (const Machine& machine : fleet.machines) {
    const auto [at, is_new] = places.emplace(machine.schedule, kinds.size());
    if (is_new) kinds.emplace_back();
    kinds[at->second].push_back(&machine);
  }
  return kinds;
}

// By what each kind teaches unless told, which goes with the last of its machines.
void add_all(ListMaker& maker, const Fleet& fleet, OneByOne& record, Day as_of, const ReadHow& how) {
  BooksOfRecord books(fleet, record, as_of, how.most_at_hand);
  for (const std::string& machine : record.machines()) {
    if (fleet.machine(machine) == nullptr) maker.add_unlisted(machine, books.facts_of(machine));
  }
  for (const auto& kind : by_kind(fleet)) {
    books.let_go();
    const Forecaster forecaster = how.told != nullptr ? *how.told : learnt_from(books, as_of);
    for (const Machine* machine : kind) {
      if (maker.wants(*machine)) maker.add(*machine, books.once(*machine), forecaster);
    }
  }
}

}  // namespace

DueList list_of_record(const Record& record, std::shared_ptr<const Fleet> fleet, Day as_of, bool day_is_given,
                       const Scope& scope, const DueAsk& ask, const ReadHow& how) {
  ListMaker maker(fleet, as_of, scope, ask);
  try {
    record.one_by_one([&](OneByOne& book) { add_all(maker, *fleet, book, as_of, how); });
  } catch (const Failure& failure) {
    // The first damage that was met; all of it is to be told.
    if (failure.kind() == FailureKind::bad_data) take_list_snapshot(fleet, record, as_of, day_is_given, scope);
    throw;
  }
  // After the facts: what another program adds in between may make the newest day too new, and never too old.
  return std::move(maker).made(record.newest_day(), day_is_given);
}

DueList due_list_of(const Record& record, std::shared_ptr<const Fleet> fleet, Day as_of, bool day_is_given,
                    const Scope& scope, const DueAsk& ask) {
  return list_of_record(record, std::move(fleet), as_of, day_is_given, scope, ask, {});
}

DueList due_list_of(const Record& record, std::shared_ptr<const Fleet> fleet, Day as_of, bool day_is_given,
                    const Scope& scope, const DueAsk& ask, const Forecaster& forecaster) {
  ReadHow how;
  how.told = &forecaster;
  return list_of_record(record, std::move(fleet), as_of, day_is_given, scope, ask, how);
}

}  // namespace service
