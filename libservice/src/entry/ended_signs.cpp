#include <algorithm>
#include <map>
#include <optional>

#include "entry/healed.h"

namespace service::entry {
namespace {

// The signs of a task that nobody has found good, as they stand before each service of one of its points.
class OpenSigns {
 public:
  explicit OpenSigns(const std::vector<std::string>& signs) : signs_(signs) {}

  void add(const Fact& fact, std::size_t at) {
    const bool seen = fact.kind == FactKind::sign;
    if (!seen && fact.kind != FactKind::looked_at) return;
    if (std::find(signs_.begin(), signs_.end(), fact.name) == signs_.end()) return;
    if (seen || found_bad(fact)) {
      open_.try_emplace(fact.name, at);
    } else {
      open_.erase(fact.name);
    }
  }

  // The one that was seen first; none: nothing is open.
  std::optional<std::size_t> first() const {
    std::optional<std::size_t> first;
    for (const auto& [name, at] : open_) first = std::min(first.value_or(at), at);
    return first;
  }

  void clear() { open_.clear(); }

 private:
  const std::vector<std::string>& signs_;
  std::map<std::string, std::size_t> open_;  // and since which fact
};

std::optional<EndedSign> ended_sign_at(const MachineTask& task, const SignLimb& limb, const std::string& position,
                                       const std::vector<std::string>& services, std::span<const Fact> facts,
                                       const KeptAsSeen& kept) {
  OpenSigns open(limb.signs);
  std::optional<EndedSign> ended;
  for (std::size_t i = 0; i < facts.size(); ++i) {
    const Fact& fact = facts[i];
    open.add(fact, i);
    const bool is_at = position.empty() || fact.position.empty() || fact.position == position;
    const bool serves = fact.kind == FactKind::service && is_at &&
                        std::find(services.begin(), services.end(), fact.task) != services.end();
    if (!serves || (found_bad(fact) && kept.of(fact))) continue;
    if (const auto was = open.first()) ended = EndedSign{task.task, position, *was, i};
    open.clear();
  }
  return ended;
}

}  // namespace

std::vector<EndedSign> ended_signs_in(const Fleet& fleet, const Machine& machine, std::span<const Fact> facts) {
  std::vector<EndedSign> all;
  const KeptAsSeen kept(fleet, machine);
  for (const MachineTask& task : tasks_of(fleet, machine)) {
    if (!may_only_be_looked_at(machine, *task.task, LimbKind::sign)) continue;
    const auto services = counted_as(fleet.schedule_of(machine), task.task->name);
    for (const LimbChoice& choice : task.every) {
      const auto* limb = std::get_if<SignLimb>(&choice.candidates.front());
      if (limb == nullptr) continue;
      for (const std::string& position : task.places()) {
        if (auto ended = ended_sign_at(task, *limb, position, services, facts, kept)) all.push_back(std::move(*ended));
      }
    }
  }
  return all;
}

}  // namespace service::entry
