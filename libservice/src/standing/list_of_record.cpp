#include "standing/list_of_record.h"

#include <algorithm>
#include <functional>
#include <map>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

#include "standing/list_maker.h"

namespace service {
namespace {

using Kind = std::vector<const Machine*>;

// The kept book of a machine where that answers for the day, else its facts: read when it is asked for; and what is
// kept of a kind, where that answers. Else what the kind teaches is asked of all its books before the list asks for
// each of them, so those of the kind at hand are held until then as far as they are small together; the others are read
// again. (To hold what is left of their facts, packed, was tried: working it out takes longer than reading them.)
class BooksOfRecord : public BookSource {
 public:
  BooksOfRecord(const Fleet& fleet, OneByOne& record, Day as_of, std::size_t most_at_hand)
      : fleet_(fleet), keeper_(fleet), record_(record), as_of_(as_of), most_at_hand_(most_at_hand) {}

  std::shared_ptr<const MachineBook> book_of(const Machine& machine) const override {
    if (const auto held = at_hand_.find(&machine); held != at_hand_.end()) return held->second;
    auto book = read(machine);
    if (!asked_once_ && facts_at_hand_ + book->facts().size() <= most_at_hand_) {
      facts_at_hand_ += book->facts().size();
      at_hand_.emplace(&machine, book);
    }
    return book;
  }

  // Of the kind at hand. Their states say whether it holds, so these are read for it, and held for their books as far
  // as they are small together; the others are read once more.
  std::shared_ptr<const LearntKind> learnt_of(const std::string& schedule) const override {
    KeptGroup group{schedule, {}};
    for (const Machine* machine : *kind_) {
      KeptMember& member = group.members.emplace_back(KeptMember{machine->key, {}});
      auto state = record_.kept(machine->key);
      if (!state) continue;
      auto its = keeper_.member_on(*state, as_of_);
      if (!its) return nullptr;
      member = std::move(*its);
      hold(*machine, std::move(*state));
    }
    group.bytes = record_.kept_of_group(schedule);
    auto kind = keeper_.kind(std::move(group));
    asked_once_ = kind != nullptr;
    return kind;
  }

  void begin(const Kind& kind) {
    kind_ = &kind;
    at_hand_.clear();
    facts_at_hand_ = 0;
    states_.clear();
    bytes_held_ = 0;
    asked_once_ = false;
  }

  // Up to the day asked about, as a snapshot holds them.
  std::vector<Fact> facts_of(const std::string& machine) const {
    std::vector<Fact> facts = record_.unstruck(machine);
    std::erase_if(facts, [&](const Fact& fact) { return fact.kind == FactKind::strike || fact.on.first > as_of_; });
    return facts;
  }

 private:
  void hold(const Machine& machine, KeptState state) const {
    constexpr std::size_t most_held = std::size_t{4} << 20U;  // bytes
    if (bytes_held_ + state.bytes.size() > most_held) return;
    bytes_held_ += state.bytes.size();
    states_.emplace(&machine, std::move(state));
  }

  std::optional<KeptState> state_of(const Machine& machine) const {
    if (auto held = states_.extract(&machine)) return std::move(held.mapped());
    return record_.kept(machine.key);
  }

  std::shared_ptr<const MachineBook> read(const Machine& machine) const {
    const auto state = state_of(machine);
    if (auto kept = state ? keeper_.book_on(*state, as_of_) : std::nullopt) {
      auto derived = std::make_shared<const Derived>(std::move(kept->derived));
      return book_with(fleet_, machine, std::move(kept->facts), std::move(derived));
    }
    return book_with(fleet_, machine, facts_of(machine.key), nullptr);
  }

  const Fleet& fleet_;
  BookKeeper keeper_;
  OneByOne& record_;
  Day as_of_;
  std::size_t most_at_hand_;
  const Kind* kind_ = nullptr;
  mutable std::unordered_map<const Machine*, std::shared_ptr<const MachineBook>> at_hand_;
  mutable std::size_t facts_at_hand_ = 0;
  mutable std::unordered_map<const Machine*, KeptState> states_;  // until their books are asked for
  mutable std::size_t bytes_held_ = 0;
  mutable bool asked_once_ = false;  // for each book: nobody learns of them
};

// The machines of each schedule of which the list wants any, in the order of the fleet file.
std::vector<Kind> by_kind(const Fleet& fleet, const ListMaker& maker) {
  std::map<std::string_view, std::size_t> places;
  std::vector<Kind> kinds;
  for (const Machine& machine : fleet.machines) {
    const auto [at, is_new] = places.emplace(machine.schedule, kinds.size());
    if (is_new) kinds.emplace_back();
    kinds[at->second].push_back(&machine);
  }
  std::erase_if(kinds, [&](const Kind& kind) {
    return std::none_of(kind.begin(), kind.end(), [&](const Machine* machine) { return maker.wants(*machine); });
  });
  return kinds;
}

// What is read in one view: as many kinds as have so many machines together, for whoever writes has to wait for it.
std::vector<std::span<const Kind>> in_views(const std::vector<Kind>& kinds, std::size_t machines) {
  std::vector<std::span<const Kind>> views{{}};  // also of no kind, where the fleet has none
  std::size_t here = 0;
  for (const Kind& kind : kinds) {
    if (here >= machines) {
      views.emplace_back(&kind, 0);
      here = 0;
    }
    std::span<const Kind>& view = views.back();
    view = view.empty() ? std::span(&kind, 1) : std::span(view.data(), view.size() + 1);
    here += kind.size();
  }
  return views;
}

void add_unlisted(ListMaker& maker, const Fleet& fleet, OneByOne& record, const BooksOfRecord& books) {
  for (const std::string& machine : record.machines()) {
    if (fleet.machine(machine) == nullptr) maker.add_unlisted(machine, books.facts_of(machine));
  }
}

// By what each kind teaches unless told, which goes with the last of its machines.
void add_kinds(ListMaker& maker, std::span<const Kind> kinds, BooksOfRecord& books, const Forecaster* told,
               const std::function<void()>& before_each) {
  for (const Kind& kind : kinds) {
    books.begin(kind);
    const Forecaster forecaster = told != nullptr ? *told : learnt_from(books);
    for (const Machine* machine : kind) {
      before_each();
      if (maker.wants(*machine)) maker.add(*machine, books.book_of(*machine), forecaster);
    }
  }
}

}  // namespace

DueList list_of_record(const Record& record, std::shared_ptr<const Fleet> fleet, Day as_of, bool day_is_given,
                       const Scope& scope, const DueAsk& ask, const ReadHow& how) {
  ListMaker maker(fleet, as_of, scope, ask);
  const std::vector<Kind> kinds = by_kind(*fleet, maker);
  bool first = true;
  std::size_t done = 0;
  const auto before_each = [&] {
    if (ask.progress) ask.progress(done++, fleet->machines.size());
  };
  try {
    for (const auto view : in_views(kinds, how.machines_in_a_view)) {
      record.one_by_one([&](OneByOne& book) {
        BooksOfRecord books(*fleet, book, as_of, how.most_at_hand);
        if (std::exchange(first, false)) add_unlisted(maker, *fleet, book, books);
        add_kinds(maker, view, books, how.told, before_each);
      });
    }
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
