#include "entry/healed.h"

#include <algorithm>
#include <optional>

namespace service::entry {
namespace {

bool is_at_limit(const MeasuredLimb& limb, const Measure& value) {
  return value == limb.limit || (limb.above ? value > limb.limit : value < limb.limit);
}

bool is_at(const Fact& fact, const std::string& position) {
  return position.empty() || fact.position.empty() || fact.position == position;
}

std::optional<Healed> healed_at(const MachineTask& task, const MeasuredLimb& limb, const std::string& position,
                                const std::vector<std::string>& services, std::span<const Fact> facts) {
  const std::size_t none = facts.size();
  std::size_t at_limit = none;
  std::optional<Healed> healed;
  for (std::size_t i = 0; i < facts.size(); ++i) {
    const Fact& fact = facts[i];
    if (!is_at(fact, position)) continue;
    if (fact.kind == FactKind::service && std::find(services.begin(), services.end(), fact.task) != services.end()) {
      at_limit = none;
      healed.reset();
    }
    const bool measured = fact.kind == FactKind::measurement && fact.name == limb.name && fact.unit == limb.unit;
    if (!measured || !fact.value) continue;
    if (is_at_limit(limb, *fact.value)) {
      at_limit = i;
      healed.reset();
    } else if (at_limit != none && !healed) {
      healed = Healed{task.task, position, limb, at_limit, i};
    }
  }
  return healed;
}

std::optional<Ended> ended_at(const MachineTask& task, const MeasuredLimb& limb, const std::string& position,
                              const std::vector<std::string>& services, std::span<const Fact> facts,
                              const KeptAsSeen& kept) {
  std::optional<std::size_t> at_limit;
  std::optional<Ended> ended;
  for (std::size_t i = 0; i < facts.size(); ++i) {
    const Fact& fact = facts[i];
    if (!is_at(fact, position)) continue;
    const bool serves =
        fact.kind == FactKind::service && std::find(services.begin(), services.end(), fact.task) != services.end();
    if (serves && at_limit && !ended && !(found_bad(fact) && kept.of(fact))) {
      ended = Ended{task.task, position, limb, *at_limit, i};
    }
    const bool measured = fact.kind == FactKind::measurement && fact.name == limb.name && fact.unit == limb.unit;
    if (!measured || !fact.value) continue;
    ended.reset();
    at_limit = is_at_limit(limb, *fact.value) ? std::optional(i) : std::nullopt;
  }
  return ended;
}

// Each limit of each point, where something at it may be measured.
template <class See>
void for_each_limit(const Fleet& fleet, const Machine& machine, const See& see) {
  for (const MachineTask& task : tasks_of(fleet, machine)) {
    for (const LimbChoice& choice : task.every) {
      const auto* limb = std::get_if<MeasuredLimb>(&choice.candidates.front());
      if (limb == nullptr) continue;
      const auto services = counted_as(fleet.schedule_of(machine), task.task->name);
      for (const std::string& position : task.places()) {
        see(task, *limb, position, services);
      }
    }
  }
}

}  // namespace

std::vector<Healed> healed_in(const Fleet& fleet, const Machine& machine, std::span<const Fact> facts) {
  std::vector<Healed> all;
  for_each_limit(fleet, machine, [&](const auto& task, const auto& limb, const auto& position, const auto& services) {
    if (auto healed = healed_at(task, limb, position, services, facts)) all.push_back(std::move(*healed));
  });
  return all;
}

std::vector<Ended> ended_in(const Fleet& fleet, const Machine& machine, std::span<const Fact> facts) {
  std::vector<Ended> all;
  const KeptAsSeen kept(fleet, machine);
  for_each_limit(fleet, machine, [&](const auto& task, const auto& limb, const auto& position, const auto& services) {
    if (!may_only_be_looked_at(machine, *task.task, LimbKind::measured)) return;
    if (auto ended = ended_at(task, limb, position, services, facts, kept)) all.push_back(std::move(*ended));
  });
  return all;
}

}  // namespace service::entry
