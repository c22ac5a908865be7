#include "service/book.h"

#include <set>

#include "service/usage.h"

namespace service {
namespace {

// Facts with values that are hard to believe, of all meters of a machine.
std::set<FactId> doubted(const Snapshot& snapshot, const Machine* machine) {
  std::set<FactId> found;
  if (machine == nullptr) return found;
  for (const Meter& meter : machine->meters) {
    for (const Doubt& doubt : standing_doubts(snapshot.fleet(), *machine, meter, snapshot.facts_of(machine->key))) {
      found.insert(doubt.fact);
    }
  }
  return found;
}

std::map<FactId, Amount> usages_of(const Snapshot& snapshot, const Machine* machine) {
  std::map<FactId, Amount> found;
  if (machine == nullptr) return found;
  const auto histories = meter_histories(snapshot, *machine);
  for (const Fact& fact : snapshot.facts_of(machine->key)) {
    if (!fact.at || (fact.kind != FactKind::reading && fact.kind != FactKind::service)) continue;
    const auto* meter = fact.meter.empty() ? machine->first_meter() : machine->meter(fact.meter);
    const auto history = meter == nullptr ? histories.end() : histories.find(meter->name);
    if (history == histories.end()) continue;
    const auto usage = history->second.usage_of(fact.id);
    if (usage && *usage != *fact.at) found[fact.id] = *usage;
  }
  return found;
}

// Of the values in a fact that a meter showed, or will show.
std::string unit_of(const Fact& fact, const Fleet& fleet) {
  const Machine* machine = fleet.machine(fact.machine);
  if (machine == nullptr || !(fact.at || fact.last || fact.first)) return "";
  const Meter* meter = fact.kind == FactKind::put_off ? meter_of_delay(fleet, fact)
                       : fact.meter.empty()           ? machine->first_meter()
                                                      : machine->meter(fact.meter);
  return meter == nullptr ? "" : meter->unit;
}

}  // namespace

Books::Books(const Snapshot& snapshot, const std::vector<Fact>& facts)
    : snapshot_(snapshot), facts_(facts), struck_(struck(facts)) {
  std::map<FactId, std::size_t> index;
  for (std::size_t i = 0; i < facts.size(); ++i) index[facts[i].id] = i;
  for (std::size_t i = 0; i < facts.size(); ++i) {
    std::size_t at = i;
    // A strike has a later id than what it strikes, so this walk ends.
    while (facts[at].kind == FactKind::strike && facts[at].strikes && *facts[at].strikes < facts[at].id) {
      const auto next = index.find(*facts[at].strikes);
      if (next == index.end()) break;
      at = next->second;
    }
    by_machine_[facts[at].machine].push_back(i);
    if (facts[i].kind == FactKind::strike && facts[i].strikes && !struck_[i]) {
      struck_by_.try_emplace(*facts[i].strikes, i);
    }
  }
}

std::string Books::reason(const Fact& fact) const {
  const auto found = struck_by_.find(fact.id);
  if (found == struck_by_.end()) return "";
  const Fact& strike = facts_[found->second];
  std::string text = to_text(strike.on) + " " + strike.origin + " by " + strike.entered_by;
  return strike.note.empty() ? text : text + ": " + strike.note;
}

BookLine Books::line_of(std::size_t at, const std::map<FactId, Amount>& usages) const {
  const Fact& fact = facts_[at];
  BookLine line;
  line.fact = fact;
  if (const auto usage = usages.find(fact.id); usage != usages.end()) line.usage = usage->second;
  line.struck = struck_[at];
  if (line.struck) line.struck_because = reason(fact);
  line.meter_unit = unit_of(fact, snapshot_.fleet());
  if (fact.kind == FactKind::put_off) line.shown = shown_at_end(snapshot_, fact);
  return line;
}

Book Books::of(std::string_view machine, bool strikes) const {
  Book book{snapshot_.fleet_ptr(), std::string(machine), snapshot_.as_of(), {}, {}};
  const Machine* listed = snapshot_.fleet().machine(machine);
  if (listed != nullptr) book.state = state_told(snapshot_, *listed);
  const auto own = by_machine_.find(machine);
  if (own == by_machine_.end()) return book;
  const auto usages = usages_of(snapshot_, listed);
  const auto in_doubt = doubted(snapshot_, listed);
  for (const std::size_t i : own->second) {
    if (facts_[i].on.first > snapshot_.as_of()) continue;
    if (facts_[i].kind == FactKind::strike && !strikes) continue;
    book.lines.push_back(line_of(i, usages));
    book.lines.back().doubtful = in_doubt.contains(facts_[i].id);
  }
  return book;
}

const Meter* meter_of_delay(const Fleet& fleet, const Fact& put_off) {
  const Machine* machine = fleet.machine(put_off.machine);
  if (machine == nullptr) return nullptr;
  if (!put_off.meter.empty()) return machine->meter(put_off.meter);
  const auto slash = put_off.task.find('/');
  if (slash != std::string::npos) {  // of a check: in hours
    const NamedTask named = task_named(fleet.schedule_of(*machine), put_off.task);
    for (const Limb& limb : named.follow_up != nullptr ? named.follow_up->within : std::vector<Limb>{}) {
      const auto* usage = std::get_if<UsageLimb>(&limb);
      if (usage != nullptr) return usage->meter ? machine->meter(*usage->meter) : machine->first_hour_meter();
    }
    return machine->first_meter();
  }
  const auto task = task_of(fleet, *machine, put_off.task);
  for (const LimbChoice& choice : task ? task->every : std::vector<LimbChoice>{}) {
    const auto* usage = std::get_if<UsageLimb>(&choice.candidates.front());
    if (usage != nullptr) return machine->meter(usage->meter.value_or(""));
  }
  return machine->first_meter();
}

std::optional<Amount> shown_at_end(const Snapshot& now, const Fact& put_off) {
  const Machine* machine = now.fleet().machine(put_off.machine);
  const Meter* meter = put_off.at ? meter_of_delay(now.fleet(), put_off) : nullptr;
  if (machine == nullptr || meter == nullptr) return std::nullopt;
  const MeterHistory history(*machine, *meter, now.facts_of(machine->key));
  if (!history.on(now.as_of())) return std::nullopt;
  return history.shown_at(*put_off.at);
}

}  // namespace service
