// A due list out of a record, kind by kind and machine by machine.
#include <algorithm>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

#include "service/kept_books.h"
#include "standing/list_maker.h"

namespace service {
namespace {

// The kept book of a machine where that answers for the day, else its facts: read when it is asked for. What a kind
// teaches is asked of all its books before the list asks for each, so those of the kind at hand are kept as far as they
// are small; the others are read again.
class BooksOfRecord : public BookSource {
 public:
  BooksOfRecord(const Fleet& fleet, OneByOne& record, Day as_of)
      : fleet_(fleet), keeper_(fleet), record_(record), as_of_(as_of) {}

  std::shared_ptr<const MachineBook> book_of(const Machine& machine) const override {
    const auto known = at_hand_.find(&machine);
    if (known != at_hand_.end()) return known->second;
    auto book = read(machine);
    facts_at_hand_ += book->facts().size();
    if (facts_at_hand_ <= most_at_hand) at_hand_.emplace(&machine, book);
    return book;
  }

  // The next kind begins.
  void let_go() {
    at_hand_.clear();
    facts_at_hand_ = 0;
  }

  // Up to the day asked about, as a snapshot holds them.
  std::vector<Fact> facts_of(const std::string& machine) const {
    std::vector<Fact> facts = record_.unstruck(machine);
    std::erase_if(facts, [&](const Fact& fact) { return fact.kind == FactKind::strike || fact.on.first > as_of_; });
    return facts;
  }

 private:
  static constexpr std::size_t most_at_hand = 10'000;  // facts: some megabytes

  std::shared_ptr<const MachineBook> read(const Machine& machine) const {
    if (const auto state = record_.kept(machine.key)) {
      if (auto kept = keeper_.book_on(*state, as_of_)) {
        auto derived = std::make_shared<const Derived>(std::move(kept->derived));
        return book_with(fleet_, machine, std::move(kept->facts), std::move(derived));
      }
    }
    return book_with(fleet_, machine, facts_of(machine.key), nullptr);
  }

  const Fleet& fleet_;
  BookKeeper keeper_;
  OneByOne& record_;
  Day as_of_;
  mutable std::unordered_map<const Machine*, std::shared_ptr<const MachineBook>> at_hand_;
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

// Null: by what each kind teaches, which goes with the last of its machines.
void add_all(ListMaker& maker, const Fleet& fleet, OneByOne& record, Day as_of, const Forecaster* told) {
  BooksOfRecord books(fleet, record, as_of);
  for (const std::string& machine : record.machines()) {
    if (fleet.machine(machine) == nullptr) maker.add_unlisted(machine, books.facts_of(machine));
  }
  for (const auto& kind : by_kind(fleet)) {
    books.let_go();
    const Forecaster forecaster = told != nullptr ? *told : learnt_from(books, as_of);
    for (const Machine* machine : kind) {
      if (maker.wants(*machine)) maker.add(*machine, books.book_of(*machine), forecaster);
    }
  }
}

DueList list_of(const Record& record, std::shared_ptr<const Fleet> fleet, Day as_of, bool day_is_given,
                const Scope& scope, const DueAsk& ask, const Forecaster* told) {
  ListMaker maker(fleet, as_of, scope, ask);
  try {
    record.one_by_one([&](OneByOne& book) { add_all(maker, *fleet, book, as_of, told); });
  } catch (const Failure& failure) {
    // The first damage that was met; all of it is to be told.
    if (failure.kind() == FailureKind::bad_data) take_list_snapshot(fleet, record, as_of, day_is_given, scope);
    throw;
  }
  // After the facts: what another program adds in between may make the newest day too new, and never too old.
  return std::move(maker).made(record.newest_day(), day_is_given);
}

}  // namespace

DueList due_list_of(const Record& record, std::shared_ptr<const Fleet> fleet, Day as_of, bool day_is_given,
                    const Scope& scope, const DueAsk& ask) {
  return list_of(record, std::move(fleet), as_of, day_is_given, scope, ask, nullptr);
}

DueList due_list_of(const Record& record, std::shared_ptr<const Fleet> fleet, Day as_of, bool day_is_given,
                    const Scope& scope, const DueAsk& ask, const Forecaster& forecaster) {
  return list_of(record, std::move(fleet), as_of, day_is_given, scope, ask, &forecaster);
}

}  // namespace service
