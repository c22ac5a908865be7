#include "service/snapshot.h"

#include <algorithm>
#include <set>
#include <string_view>
#include <unordered_map>
#include <utility>

#include "base/order_in_place.h"

namespace service {
namespace {

// Facts are large, so they are ordered by their places and moved once; names are compared only of machines.
void group_by_machine(std::vector<Fact>& facts) {
  std::unordered_map<std::string_view, std::size_t> places;  // how many facts, then where the next one goes
  for (const Fact& fact : facts) ++places[fact.machine];
  std::vector<std::pair<std::string_view, std::size_t*>> machines;
  for (auto& [machine, place] : places) machines.emplace_back(machine, &place);
  std::sort(machines.begin(), machines.end());
  std::size_t next = 0;
  for (const auto& [machine, place] : machines) next += std::exchange(*place, next);
  std::vector<std::size_t> from(facts.size());
  for (std::size_t i = 0; i < facts.size(); ++i) from[places[facts[i].machine]++] = i;
  move_to_places(facts, std::move(from));
}

}  // namespace

// A caller's mistake, and one that nobody would see: its answers look like any others.
void Snapshot::insist_on_kin() const {
  if (!read_.machines) return;
  const std::set<std::string_view> there(read_.machines->begin(), read_.machines->end());
  const Scope kin = kin_of(*fleet_, scope_, book_->kinds);
  if (kin.machines && std::all_of(kin.machines->begin(), kin.machines->end(),
                                  [&](const std::string& machine) { return there.contains(machine); })) {
    return;
  }
  throw Failure(FailureKind::internal,
                {"facts-missing", "the facts do not reach: those of other machines of the same kinds are needed too",
                 "read the facts of kin_of(scope), or take_snapshot of the record"});
}

Extract whole_book(std::vector<Fact> facts) {
  std::optional<Day> newest;
  for (const Fact& fact : facts) {
    if (has_day(fact)) newest = std::max(newest.value_or(fact.on.first), fact.on.first);
  }
  return {std::move(facts), {}, newest};
}

Snapshot::Snapshot(std::shared_ptr<const Fleet> fleet, Extract extract, Day as_of, bool day_is_given, Scope scope)
    : fleet_(std::move(fleet)),
      scope_(std::move(scope)),
      as_of_(as_of),
      day_is_given_(day_is_given),
      newest_(extract.newest),
      read_(std::move(extract.read)) {
  // Facts that are there are there, whatever the caller says.
  for (const Fact& fact : extract.facts) {
    if (has_day(fact)) newest_ = std::max(newest_.value_or(fact.on.first), fact.on.first);
  }
  auto book = std::make_shared<Book>();
  book->facts = unstruck(std::move(extract.facts));
  std::erase_if(book->facts, [&](const Fact& fact) { return fact.kind == FactKind::strike || fact.on.first > as_of_; });
  group_by_machine(book->facts);
  book->derived = std::move(extract.derived);
  book->derived_beside = std::move(extract.derived_beside);
  book->kinds = std::move(extract.kinds);
  const std::vector<Fact>& facts = book->facts;
  for (std::size_t from = 0; from < facts.size();) {
    std::size_t to = from;
    while (to < facts.size() && facts[to].machine == facts[from].machine) ++to;
    book->ranges.emplace(facts[from].machine, std::pair{from, to});
    from = to;
  }
  book_ = std::move(book);
  insist_on_kin();
  find_unlisted();
}

void Snapshot::find_unlisted() {
  unlisted_.clear();
  for (const auto& [machine, range] : book_->ranges) {
    if (machine.empty() || fleet_->machine(machine) != nullptr) continue;
    unlisted_.emplace_back(machine, static_cast<int>(range.second - range.first));
  }
}

Snapshot Snapshot::within(Scope scope) const {
  Snapshot other = *this;
  other.scope_ = std::move(scope);
  other.insist_on_kin();
  other.find_unlisted();
  return other;
}

std::span<const Fact> Snapshot::facts_of(std::string_view machine) const& {
  if (book_->derived.contains(machine)) {
    throw Failure(FailureKind::internal,
                  {"facts-condensed",
                   "all facts of machine " + std::string(machine) + " are asked for, and not all of them were read",
                   "take a snapshot of the facts (take_snapshot)"});
  }
  return bearing_facts_of(machine);
}

std::shared_ptr<const Derived> Snapshot::derived_of(std::string_view machine) const {
  for (const auto* derived : {&book_->derived, &book_->derived_beside}) {
    if (const auto found = derived->find(machine); found != derived->end()) return found->second;
  }
  return nullptr;
}

std::shared_ptr<const LearntKind> Snapshot::learnt_of(std::string_view schedule) const {
  const auto found = book_->kinds.find(schedule);
  return found == book_->kinds.end() ? nullptr : found->second;
}

std::span<const Fact> Snapshot::bearing_facts_of(std::string_view machine) const& {
  const auto range = book_->ranges.find(machine);
  if (range == book_->ranges.end()) return {};
  const auto [from, to] = range->second;
  return std::span{book_->facts}.subspan(from, to - from);
}

Scope to_be_read(const Fleet& fleet, const Record& record, const Scope& scope, const LearntKinds& known) {
  Scope kin = kin_of(fleet, scope, known);
  if (kin.machines) {
    for (std::string& machine : record.machines()) {
      if (!machine.empty() && fleet.machine(machine) == nullptr) kin.machines->push_back(std::move(machine));
    }
  }
  return kin;
}

Snapshot take_snapshot(std::shared_ptr<const Fleet> fleet, const Record& record, Day as_of, bool day_is_given,
                       const Scope& scope) {
  Scope read = to_be_read(*fleet, record, scope);
  auto facts = record.facts(read);
  // After the facts: what another program adds in between may make the newest day too new, and never too old.
  const auto newest = record.newest_day();
  return {std::move(fleet), {std::move(facts), std::move(read), newest}, as_of, day_is_given, scope};
}

Snapshot take_fleet_snapshot(std::shared_ptr<const Fleet> fleet, const Record& record, Day as_of, bool day_is_given,
                             const Scope& scope) {
  return take_snapshot(std::move(fleet), record, as_of, day_is_given).within(scope);
}

Scope scope_of_site(const Fleet& fleet, std::string_view site) {
  if (fleet.site(site) == nullptr) {
    std::vector<std::string> names;
    for (const Site& known : fleet.sites) names.push_back(known.key);
    throw Failure(FailureKind::usage,
                  Diagnostic{"unknown-site", "there is no site `" + std::string(site) + "` in this fleet",
                             names_instead(site, names, "the fleet lists no sites")});
  }
  Scope scope{std::vector<std::string>{}, std::string(site)};
  for (const Machine& machine : fleet.machines) {
    if (machine.site == site) scope.machines->push_back(machine.key);
  }
  return scope;
}

Scope kin_of(const Fleet& fleet, const Scope& scope, const LearntKinds& known) {
  if (!scope.machines) return scope;
  const std::set<std::string_view> asked(scope.machines->begin(), scope.machines->end());
  std::set<std::string_view> kinds;
  for (const Machine& machine : fleet.machines) {
    if (asked.contains(machine.key) && !known.contains(machine.schedule)) kinds.insert(machine.schedule);
  }
  Scope kin = scope;
  for (const Machine& machine : fleet.machines) {
    if (kinds.contains(machine.schedule) && !asked.contains(machine.key)) kin.machines->push_back(machine.key);
  }
  return kin;
}

}  // namespace service
