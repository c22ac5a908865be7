// What a line of a text brought about, out of what all of it did.
#include <algorithm>
#include <set>

#include "service/messages.h"
#include "service/snapshot.h"

namespace service {
namespace {

std::set<FactId> ids_of(const std::vector<Fact>& facts) {
  std::set<FactId> ids;
  for (const Fact& fact : facts) ids.insert(fact.id);
  return ids;
}

bool is_about(const Gap& doubt, const std::set<FactId>& ids) {
  return std::any_of(doubt.facts.begin(), doubt.facts.end(), [&](const FactId& fact) { return ids.contains(fact); });
}

bool is_about(const UntoldValue& untold, const std::vector<Fact>& facts) {
  return std::any_of(facts.begin(), facts.end(), [&](const Fact& fact) {
    const bool named = std::find(untold.tasks.begin(), untold.tasks.end(), fact.task) != untold.tasks.end();
    return fact.kind == FactKind::service && fact.machine == untold.machine && fact.on.first == untold.on && named;
  });
}

// A sign that these facts tell of or look at.
bool is_about(const SeenSign& seen, const std::vector<Fact>& facts, const Fleet& fleet) {
  const KeptAsSeen kept(fleet, *seen.machine);
  return std::any_of(facts.begin(), facts.end(), [&](const Fact& fact) {
    if (fact.machine != seen.machine->key) return false;
    if (fact.id == seen.fact || (fact.kind == FactKind::looked_at && fact.name == seen.sign)) return true;
    const auto name = kept.of(fact);
    return name && name->name == seen.sign;
  });
}

// The answer with what this keeps of it; the lists and what they changed stay the whole's.
template <class Keep>
Entered narrowed(const Entered& whole, std::vector<Fact> added, const Keep& keep) {
  Entered part = whole;
  part.added = std::move(added);
  std::erase_if(part.doubts, [&](const auto& one) { return !keep(one); });
  std::erase_if(part.untold, [&](const auto& one) { return !keep(one); });
  std::erase_if(part.twice, [&](const auto& one) { return !keep(one); });
  std::erase_if(part.seen, [&](const auto& one) { return !keep(one); });
  std::erase_if(part.answered, [&](const auto& one) { return !keep(one); });
  return part;
}

struct IsAbout {
  const std::vector<Fact>& facts;
  std::set<FactId> ids;
  const Fleet& fleet;

  bool operator()(const Gap& doubt) const { return is_about(doubt, ids); }
  bool operator()(const UntoldValue& untold) const { return is_about(untold, facts); }
  // Of two lines that tell of one service the later is told.
  bool operator()(const WrittenTwice& twice) const { return ids.contains(std::max(twice.earlier.id, twice.later.id)); }
  bool operator()(const SeenSign& seen) const { return is_about(seen, facts, fleet); }
};

}  // namespace

Entered part_of(const Messages& messages, const MessageLine& line) {
  const Entered& whole = messages.entered;
  const IsAbout is_about_line{line.facts, ids_of(line.facts), whole.is->fleet()};
  Entered part = narrowed(whole, line.facts, is_about_line);
  if (line.facts.empty()) return part;
  // What was there before it: the lines above it too, as far as they are about its machine.
  const std::string& machine = line.facts.front().machine;
  std::vector<Fact> above;
  for (const Fact& fact : whole.added) {
    if (fact.id == line.facts.front().id) break;
    if (fact.machine == machine) above.push_back(fact);
  }
  if (above.empty()) return part;
  above.insert(above.end(), whole.known->begin(), whole.known->end());
  const std::shared_ptr<const Fleet>& fleet = whole.is->fleet_ptr();
  Extract known{std::move(above), kin_of(*fleet, whole.is->scope()), std::nullopt};
  part.was = std::make_shared<const Snapshot>(fleet, std::move(known), whole.today, true, Scope{std::vector{machine}});
  return part;
}

Entered rest_of(const Messages& messages) {
  const std::vector<Fact>& all = messages.entered.added;
  const IsAbout is_about_some{all, ids_of(all), messages.entered.is->fleet()};
  return narrowed(messages.entered, all, [&](const auto& one) { return !is_about_some(one); });
}

}  // namespace service
