#include "entry/refused_values.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

#include "entry/meters_counted.h"
#include "service/usage.h"

namespace service {
namespace {

class Cures {
 public:
  Cures(const Fleet& fleet, const std::vector<Fact>& known, const std::vector<Proposal>& proposals, const Stamp& stamp,
        Day today)
      : fleet_(fleet), known_(known), proposals_(proposals), stamp_(stamp), today_(today) {}

  void put_first(Judgement& judgement) {
    for (std::size_t i = 0; i < judgement.refused.size(); ++i) {
      Diagnostic& refused = judgement.refused[i];
      if (refused.code == "reading-falls" || refused.code == "reading-jumps" || refused.code == "reading-beyond") {
        put_first(refused, judgement.refused_rows[i]);
      }
    }
  }

  std::vector<Cure> other_meters(const Fact& fact) const {
    const Machine* machine = fleet_.machine(fact.machine);
    const Meter* meter = machine == nullptr ? nullptr : machine->meter(fact.meter);
    return meter == nullptr ? std::vector<Cure>{} : other_meters(fact, *machine, *meter);
  }

 private:
  void put_first(Diagnostic& refused, std::size_t row) {
    const Fact& fact = proposals_[row].fact;
    const Machine* machine = fleet_.machine(fact.machine);
    if (machine == nullptr) return;
    const Meter* meter = fact.meter.empty() ? machine->first_meter() : machine->meter(fact.meter);
    if (meter == nullptr) return;
    doubtful_first(refused.cures, *machine, *meter);
    // In a file many rows may be wrong, and each asks all that is known.
    if (proposals_[row].place) return;
    std::vector<Cure> others = other_meters(fact, *machine, *meter);
    refused.cures.insert(refused.cures.begin(), others.begin(), others.end());
  }

  void doubtful_first(std::vector<Cure>& cures, const Machine& machine, const Meter& meter) {
    const auto in_doubt = std::find_if(cures.begin(), cures.end(), [&](const Cure& cure) {
      return cure.kind == CureKind::strike_fact && is_doubted(std::string(cure.value("fact")), machine, meter);
    });
    if (in_doubt == cures.end()) return;
    for (auto& [name, value] : in_doubt->values) {
      if (name == "which") value = "doubtful";
    }
    std::rotate(cures.begin(), in_doubt, in_doubt + 1);
  }

  bool is_doubted(const std::string& fact, const Machine& machine, const Meter& meter) {
    const auto [at, is_new] = doubted_.try_emplace({machine.key, meter.name});
    if (is_new) at->second = standing_doubts(fleet_, machine, meter, facts_with(machine, nullptr));
    return std::any_of(at->second.begin(), at->second.end(),
                       [&](const Doubt& doubt) { return to_text(doubt.fact) == fact; });
  }

  // The unstruck facts of a machine in the one order, and this one.
  std::vector<Fact> facts_with(const Machine& machine, const Fact* more) const {
    std::vector<Fact> facts;
    for (Fact& fact : unstruck(known_)) {
      if (fact.machine == machine.key) facts.push_back(std::move(fact));
    }
    if (more != nullptr) facts.push_back(*more);
    std::stable_sort(facts.begin(), facts.end(), before);
    return facts;
  }

  std::vector<Cure> other_meters(const Fact& fact, const Machine& machine, const Meter& meter) const {
    std::vector<Cure> cures;
    if (fact.kind == FactKind::meter_change || !fact.on.whole_day()) return cures;
    for (const Meter& other : machine.meters) {
      if (other.name == meter.name || !may_show(fact, machine, other)) continue;
      Cure cure{CureKind::other_meter, {{"machine", machine.key}, {"meter", other.name}}};
      if (fact.kind == FactKind::service) {
        const auto [by_it, all] = services_by(other, machine);
        if (by_it.empty()) continue;
        if (!all) cure.values.emplace_back("tasks", fmt::format("{}", fmt::join(by_it, " ")));
      }
      cures.push_back(std::move(cure));
    }
    return cures;
  }

  // It goes on from what that meter showed before, and nobody would doubt it.
  bool may_show(const Fact& fact, const Machine& machine, const Meter& meter) const {
    Proposal copy{fact, false, std::nullopt};
    copy.fact.meter = meter.name;
    const Judgement judged = judge(fleet_, known_, {copy}, stamp_, today_);
    if (judged.accepted.size() != 1) return false;
    const auto facts = facts_with(machine, &judged.accepted.front());
    if (!MeterHistory(machine, meter, facts_with(machine, nullptr)).read()) return false;
    const auto doubts = standing_doubts(fleet_, machine, meter, facts);
    return std::none_of(doubts.begin(), doubts.end(),
                        [&](const Doubt& doubt) { return doubt.fact == judged.accepted.front().id; });
  }

  // Of the services told, those that count by a meter, and whether those are all.
  std::pair<std::vector<std::string>, bool> services_by(const Meter& meter, const Machine& machine) const {
    std::pair<std::vector<std::string>, bool> found{{}, true};
    for (const Proposal& proposal : proposals_) {
      const Fact& fact = proposal.fact;
      if (fact.kind != FactKind::service || fact.machine != machine.key) continue;
      if (!meters_counted(fleet_, machine, fact.task).contains(meter.name)) {
        found.second = false;
        continue;
      }
      found.first.push_back(fact.position.empty() ? fact.task : fact.task + '@' + fact.position);
    }
    return found;
  }

  const Fleet& fleet_;
  const std::vector<Fact>& known_;
  const std::vector<Proposal>& proposals_;
  const Stamp& stamp_;
  Day today_;
  std::map<std::pair<std::string, std::string>, std::vector<Doubt>> doubted_;
};

}  // namespace

void put_likelier_first(const Fleet& fleet, const std::vector<Fact>& known, const std::vector<Proposal>& proposals,
                        const Stamp& stamp, Day today, Judgement& judgement) {
  Cures(fleet, known, proposals, stamp, today).put_first(judgement);
}

std::vector<MeterMeant> meters_meant(const Fleet& fleet, const std::vector<Fact>& known,
                                     const std::vector<Proposal>& proposals, const Stamp& stamp, Day today,
                                     const std::vector<Fact>& added, const std::vector<Gap>& doubts) {
  std::vector<MeterMeant> meant;
  const Cures cures(fleet, known, proposals, stamp, today);
  for (const Gap& doubt : doubts) {
    const auto value =
        std::find_if(added.begin(), added.end(), [&](const Fact& fact) { return fact.id == doubt.facts.front(); });
    if (value == added.end()) continue;
    for (Cure& meter : cures.other_meters(*value)) meant.push_back({value->id, std::move(meter)});
  }
  return meant;
}

}  // namespace service
