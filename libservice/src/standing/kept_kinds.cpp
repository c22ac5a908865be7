// What a kind has taught is kept as its bytes behind a seal over all that follows, and a checksum of what it was learnt
// from: the fleet files, the program, and the seals of the books of all its machines. Whatever changes a book changes
// its seal, so nothing else need be told of entries, strikes and edits.
#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "base/checksum.h"
#include "base/eight_bytes.h"
#include "service/kept_books.h"
#include "service/learnt_kind.h"
#include "standing/held_kinds.h"

namespace service {
namespace {

constexpr std::size_t kind_head_size = 2 * eight_bytes;  // the seal, and what it was learnt from

std::uint64_t learnt_by(std::uint64_t inputs, const KeptGroup& group) {
  Checksum sum;
  sum.add(inputs);
  sum.add(group.name);
  for (const KeptMember& member : group.members) {
    sum.add(member.machine);
    sum.add(member.seal ? std::optional(static_cast<std::int64_t>(*member.seal)) : std::nullopt);
  }
  return sum.value();
}

bool is_whole(std::string_view bytes) {
  return bytes.size() >= kind_head_size && take_eight_bytes(bytes) == checksum_of(bytes);
}

// Of what is whole.
std::uint64_t told_learnt_by(std::string_view bytes) {
  bytes.remove_prefix(eight_bytes);
  return take_eight_bytes(bytes);
}

// A machine of which something is recorded and no book holds teaches what its facts say, and these are not told here.
bool has_all_books(const KeptGroup& group) {
  return std::all_of(group.members.begin(), group.members.end(),
                     [](const KeptMember& member) { return member.seal || member.facts.facts == 0; });
}

}  // namespace

std::vector<KeptGroup> BookKeeper::groups() const {
  if (!fleet_.files_checksum) return {};
  std::map<std::string_view, KeptGroup> groups;
  for (const Machine& machine : fleet_.machines) groups[machine.schedule].members.push_back({machine.key, {}});
  std::vector<KeptGroup> all;
  for (auto& [schedule, group] : groups) {
    group.name = schedule;
    all.push_back(std::move(group));
  }
  return all;
}

bool BookKeeper::holds_together(const KeptGroup& group) const {
  if (!fleet_.files_checksum || !has_all_books(group)) return false;
  return is_whole(group.bytes) && learnt_by(inputs_, group) == told_learnt_by(group.bytes);
}

std::string BookKeeper::work_out_together(const KeptGroup& group, const std::vector<KeptState>& states) const {
  std::map<std::string_view, Condensed> books;
  for (const KeptState& state : states) {
    auto condensed = book(state);
    if (!condensed) throw Failure(FailureKind::internal, {"book-missing", "the book of a machine does not hold", ""});
    books.emplace(state.machine, std::move(*condensed));
  }
  const auto kind = LearntKind::from(fleet_, group.name, [&](const Machine& machine) {
    const auto found = books.find(machine.key);
    if (found == books.end()) return std::make_shared<const MachineBook>(fleet_, machine, std::span<const Fact>{});
    // Of the map, which outlives what is learnt.
    const std::shared_ptr<const Derived> derived(std::shared_ptr<const void>(), &found->second.derived);
    return std::make_shared<const MachineBook>(fleet_, machine, found->second.facts, derived);
  });
  learnt_[group.name] = kind;
  std::string rest;
  add_eight_bytes(rest, learnt_by(inputs_, group));
  rest += kind->bytes();
  std::string bytes;
  add_eight_bytes(bytes, checksum_of(rest));
  return bytes + rest;
}

std::optional<KeptMember> BookKeeper::member_on(const KeptState& state, Day day) const {
  if (state.facts.newest && *state.facts.newest > day) return std::nullopt;  // not yet known then
  if (!holds(state)) return std::nullopt;
  return KeptMember{state.machine, state.facts, seal_of(state)};
}

std::shared_ptr<const LearntKind> BookKeeper::kind(KeptGroup&& group) const {
  if (!holds_together(group)) return nullptr;
  group.bytes.erase(0, kind_head_size);
  return LearntKind::read(std::move(group.bytes));
}

std::vector<OddKind> odd_kinds(const Fleet& fleet, const std::vector<Fact>& facts, const KeptBeside& kept) {
  const BookKeeper keeper(fleet);
  std::map<std::string_view, const KeptState*> by_machine;
  for (const KeptState& state : kept.states) by_machine.emplace(state.machine, &state);
  std::map<std::string_view, std::int64_t> recorded;
  for (const Fact& fact : facts) ++recorded[fact.machine];
  std::vector<OddKind> odd;
  for (KeptGroup& group : keeper.groups()) {
    std::vector<KeptState> states;
    bool any_recorded = false;
    for (KeptMember& member : group.members) {
      if (!recorded.contains(member.machine)) continue;
      any_recorded = true;
      member.facts.facts = recorded[member.machine];
      const auto found = by_machine.find(member.machine);
      if (found == by_machine.end() || !keeper.holds(*found->second)) continue;
      member.seal = keeper.seal_of(*found->second);
      states.push_back(*found->second);
    }
    if (!any_recorded) continue;
    const auto bytes = kept.groups.find(group.name);
    if (bytes == kept.groups.end()) {
      odd.push_back({group.name, OddBook::Why::missing});
      continue;
    }
    group.bytes = bytes->second;
    if (!is_whole(group.bytes)) {
      odd.push_back({group.name, OddBook::Why::spoilt});
    } else if (!keeper.holds_together(group)) {
      odd.push_back({group.name, OddBook::Why::stale});
    } else if (keeper.work_out_together(group, states) != group.bytes) {
      odd.push_back({group.name, OddBook::Why::differs});
    }
  }
  return odd;
}

std::vector<Diagnostic> remarks_on(const std::vector<OddKind>& odd) {
  std::vector<Diagnostic> remarks;
  for (const OddKind& kind : odd) {
    const std::string learnt = "what was learnt of the machines of schedule " + cleaned(kind.schedule) + " ";
    if (kind.why == OddBook::Why::spoilt) {
      remarks.push_back({"spoilt-kind", learnt + "is damaged; it is not used, and the facts are whole",
                         "look at the disk; the next entry makes it anew", std::nullopt, Severity::remark});
    } else if (kind.why == OddBook::Why::differs) {
      remarks.push_back({"other-kind",
                         learnt + "is not what this computer learns of their facts; answers go by what is kept",
                         "write something down of one of them, which makes it anew; where it is said again, please "
                         "report it",
                         std::nullopt, Severity::remark});
    }
  }
  return remarks;
}

HeldKinds::HeldKinds(const BookKeeper& keeper, const Fleet& fleet, const Scope& scope, Day as_of)
    : keeper_(keeper), as_of_(as_of) {
  std::set<std::string_view> asked;
  if (scope.machines) {
    for (const std::string& name : *scope.machines) {
      if (const Machine* machine = fleet.machine(name)) asked.insert(machine->schedule);
    }
  }
  for (KeptGroup& group : keeper.groups()) {
    if (!scope.machines || asked.contains(group.name)) kinds_.push_back({std::move(group)});
  }
  for (Kind& kind : kinds_) {
    for (KeptMember& member : kind.group.members) members_.emplace(member.machine, Member{&kind, &member});
  }
}

void HeldKinds::note(const KeptState& state) {
  const auto found = members_.find(state.machine);
  if (found == members_.end() || !found->second.kind->may_hold) return;
  if (auto member = keeper_.member_on(state, as_of_)) {
    found->second.member->facts = member->facts;
    found->second.member->seal = member->seal;
  } else {
    found->second.kind->may_hold = false;
  }
}

LearntKinds HeldKinds::of_noted(const Record& record) {
  LearntKinds kinds;
  for (auto& [group, may_hold] : kinds_) {
    if (!may_hold) continue;
    group.bytes = record.kept_of_group(group.name);
    std::string schedule = group.name;
    if (auto kind = keeper_.kind(std::move(group))) kinds.emplace(std::move(schedule), std::move(kind));
  }
  return kinds;
}

LearntKinds HeldKinds::of_their_states(const Record& record) {
  std::vector<std::string> machines;
  for (const auto& [machine, member] : members_) machines.emplace_back(machine);
  for (const KeptState& state : record.kept_of(machines)) note(state);
  return of_noted(record);
}

LearntKinds kept_kinds(const Fleet& fleet, const Record& record, const Scope& scope, Day as_of) {
  const BookKeeper keeper(fleet);
  LearntKinds kinds;
  record.in_one_view([&] { kinds = HeldKinds(keeper, fleet, scope, as_of).of_their_states(record); });
  return kinds;
}

}  // namespace service
