// Which facts hold: strikes, and strikes of strikes.
#include <algorithm>
#include <set>

#include "record/order.h"
#include "service/record.h"

namespace service {

// A strike counts only where its id is later than its target's. So whether a strike is itself struck depends on later
// ones alone, one pass from the latest to the earliest settles all, and a forged ring of strikes is no ring.
std::vector<bool> struck(const std::vector<Fact>& facts) {
  std::vector<std::size_t> strikes;
  for (std::size_t i = 0; i < facts.size(); ++i) {
    if (facts[i].kind == FactKind::strike && facts[i].strikes) strikes.push_back(i);
  }
  std::vector<bool> void_facts(facts.size(), false);
  if (strikes.empty()) return void_facts;

  std::sort(strikes.begin(), strikes.end(), [&](std::size_t a, std::size_t b) { return facts[a].id > facts[b].id; });
  std::set<FactId> voided;  // by strikes that hold
  for (const std::size_t i : strikes) {
    const Fact& strike = facts[i];
    if (!voided.contains(strike.id) && strike.id > *strike.strikes) voided.insert(*strike.strikes);
  }
  for (std::size_t i = 0; i < facts.size(); ++i) void_facts[i] = voided.contains(facts[i].id);
  return void_facts;
}

std::vector<Fact> unstruck(std::vector<Fact> facts) {
  const std::vector<bool> voided = struck(facts);
  std::size_t kept = 0;
  for (std::size_t i = 0; i < facts.size(); ++i) {
    if (voided[i]) continue;
    if (kept != i) facts[kept] = std::move(facts[i]);
    ++kept;
  }
  facts.resize(kept);
  record::put_in_order(facts);
  return facts;
}

}  // namespace service
