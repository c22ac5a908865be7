// Which facts of a machine can still matter to a standing. It mirrors what the arithmetic beside it asks of facts:
// whoever lets that ask for more lets more be kept here.
#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <tuple>

#include "service/machine_book.h"
#include "standing/gaps.h"

namespace service {
namespace {

// Whether a limb of the task, whichever interval it is in, passes `ask`.
template <class Kind, class Ask>
bool any_limb(const MachineTask& task, Ask ask) {
  for (const auto* choices : {&task.every, &task.first}) {
    for (const LimbChoice& choice : *choices) {
      const auto* limb = std::get_if<Kind>(&choice.candidates.front());
      if (limb != nullptr && ask(*limb)) return true;
    }
  }
  return false;
}

bool is_among(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

class Condensing {
 public:
  Condensing(const Fleet& fleet, const Machine& machine, std::span<const Fact> facts)
      : machine_(machine),
        schedule_(fleet.schedule_of(machine)),
        facts_(facts),
        tasks_(tasks_of(fleet, machine)),
        kept_as_seen_(fleet, machine),
        bears_(facts.size(), false) {}

  std::vector<Fact> bearing() {
    keep_by_kind();
    keep_what_is_told();
    keep_answers_of_what_was_seen();
    for (const MachineTask& task : tasks_) {
      for (const std::string& position : task.places()) keep_point(task, position);
    }
    std::vector<Fact> left;
    for (std::size_t i = 0; i < facts_.size(); ++i) {
      if (bears_[i]) left.push_back(facts_[i]);
    }
    return left;
  }

 private:
  void keep(const Fact& fact) { bears_[static_cast<std::size_t>(&fact - facts_.data())] = true; }
  void keep(const ServiceDay& service) {
    for (const Fact* fact : service.facts) keep(*fact);
  }

  void keep_by_kind() {
    for (const Fact& fact : facts_) {
      switch (fact.kind) {
        case FactKind::reading:
        case FactKind::meter_change:
        case FactKind::service:
        case FactKind::measurement:
        case FactKind::sign:
        case FactKind::looked_at:
          break;  // by what they are about
        case FactKind::put_off:
        case FactKind::laid_up:
        case FactKind::out_of_use:
        case FactKind::back:
        case FactKind::count:
        case FactKind::strike:
          keep(fact);
      }
    }
  }

  // Facts that are gaps: of a task that is no longer listed, and of days on which the machine was not the owner's.
  void keep_what_is_told() {
    for (const Fact& fact : facts_) {
      if (!is_listed(tasks_, fact) || is_after_it_left(machine_, fact) || is_before_it_was_new(machine_, fact))
        keep(fact);
    }
  }

  // What is kept as seen, and all that may have answered it. Of signs that a task lists, and of measured values, what
  // no service has ended; unless somebody gave something else that name.
  void keep_answers_of_what_was_seen() {
    std::set<std::string> seen;
    std::vector<const Fact*> bad;  // services that are kept as seen
    for (const Fact& fact : facts_) {
      if (fact.kind == FactKind::service && is_answer(bad, fact)) keep(fact);
      const auto kept = kept_as_seen_.of(fact);
      if (!kept) continue;
      keep(fact);
      seen.insert(kept->name);
      if (fact.kind == FactKind::service) bad.push_back(&fact);
    }
    std::map<std::string_view, std::size_t> since;  // by sign
    std::set<std::tuple<std::string_view, std::string_view, std::string_view>> later;
    for (std::size_t i = facts_.size(); i-- > 0;) {
      const Fact& fact = facts_[i];
      if (fact.kind == FactKind::sign || fact.kind == FactKind::looked_at) {
        const bool can_end = kept_as_seen_.is_listed(fact.name) && !seen.contains(fact.name);
        const auto [at, is_new] = since.try_emplace(fact.name, 0);
        if (is_new && can_end) at->second = first_since(fact.name);
        if (i >= at->second) keep(fact);
      } else if (fact.kind == FactKind::measurement) {
        // A later value of the same place and unit speaks in its stead.
        if (!fact.value || later.emplace(fact.name, fact.position, fact.unit).second) keep(fact);
      }
    }
  }

  bool is_answer(const std::vector<const Fact*>& bad, const Fact& later) const {
    return std::any_of(bad.begin(), bad.end(), [&](const Fact* fact) {
      return fact->task == later.task || is_among(counted_as(schedule_, fact->task), later.task);
    });
  }

  // The place of the first fact that lies after the last service of some point that comes due by the sign: what stands
  // before was answered everywhere.
  std::size_t first_since(const std::string& sign) const {
    std::size_t first = facts_.size();
    for (const MachineTask& task : tasks_) {
      if (!any_limb<SignLimb>(task, [&](const SignLimb& limb) { return is_among(limb.signs, sign); })) continue;
      for (const std::string& position : task.places()) {
        const auto services = services_of(facts_, task, position);
        if (services.empty()) return 0;
        first = std::min(first, static_cast<std::size_t>(&services.back().spoken_for() - facts_.data()));
      }
    }
    return first;
  }

  void keep_point(const MachineTask& task, const std::string& position) {
    const auto services = services_of(facts_, task, position);
    if (!services.empty()) keep(services.back());
    if (task.task->counts_from != CountsFrom::done) {
      for (const ServiceDay& service : services) keep(service);  // the chain goes through them all
    }
    for (const FollowUp& check : task.task->follow_ups) {
      const auto checks = checks_of(facts_, task.task->name + '/' + check.name, position);
      if (!checks.empty()) keep(checks.back());
    }
    any_limb<ChangesLimb>(task, [&](const ChangesLimb& limb) {
      for (const ServiceDay& change : services_of(facts_, schedule_, limb.task, {})) {
        if (services.empty() || change.day() >= services.back().day()) keep(change);
      }
      return false;  // of each limb
    });
  }

  const Machine& machine_;
  const Schedule& schedule_;
  std::span<const Fact> facts_;
  std::vector<MachineTask> tasks_;
  KeptAsSeen kept_as_seen_;
  std::vector<bool> bears_;
};

// Without what values of facts stand for that are not left.
MeterHistory of_these(const MeterHistory& history, const std::vector<Fact>& left) {
  MeterHistory::Parts parts = history.parts();
  std::set<FactId> ids;
  for (const Fact& fact : left) ids.insert(fact.id);
  std::erase_if(parts.by_fact, [&](const UsageOfFact& one) { return !ids.contains(one.fact); });
  return MeterHistory(std::move(parts));
}

}  // namespace

Derived worked_out_of(const Fleet& fleet, const Machine& machine, std::span<const Fact> facts) {
  const MachineBook book(fleet, machine, facts);
  Derived derived;
  derived.recorded = !book.nothing_recorded();
  derived.serviced = book.serviced();
  for (const Meter& meter : machine.meters) {
    derived.histories.emplace(meter.name, book.history(meter));
    derived.doubts.emplace(meter.name, book.doubts(meter));
    derived.lateness.emplace(meter.name, book.lateness(meter));
  }
  return derived;
}

Condensed condensed(const Fleet& fleet, const Machine& machine, std::span<const Fact> facts, const Derived& all) {
  Condensed condensed;
  condensed.facts = Condensing(fleet, machine, facts).bearing();
  condensed.derived = all;
  for (auto& [meter, history] : condensed.derived.histories) history = of_these(history, condensed.facts);
  return condensed;
}

Condensed condensed(const Fleet& fleet, const Machine& machine, std::span<const Fact> facts) {
  return condensed(fleet, machine, facts, worked_out_of(fleet, machine, facts));
}

}  // namespace service
