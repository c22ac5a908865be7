// What somebody has to hear of who entered facts: use of a machine that is not to be used, safety that a delay does not
// put off, machines on which something for safety is overdue now.
#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "service/entry.h"
#include "service/not_to_run.h"
#include "service/usage.h"

namespace service {
namespace {

bool stands_ever(std::span<const Fact> facts) {
  return std::any_of(facts.begin(), facts.end(), [](const Fact& fact) {
    return fact.kind == FactKind::laid_up || fact.kind == FactKind::out_of_use;
  });
}

// The values of one meter in order; of those that are among `fresh`, what was used since the one before.
void add_runs(const Machine& machine, const Meter& meter, const Snapshot& now, const std::set<FactId>& fresh,
              std::vector<RunNotInUse>& runs) {
  const auto facts = now.facts_of(machine.key);
  const bool still = use_state(now, machine).kind != UseKind::in_use;
  const MeterHistory history(machine, meter, facts);
  std::optional<std::pair<Day, Amount>> last;
  for (const MeterEvent& event : meter_events(machine, meter, facts)) {
    const auto usage = event.fact == nullptr ? history.on(event.day) : history.usage_of(event.fact->id);
    const bool asked = event.fact != nullptr && fresh.contains(event.fact->id);
    if (asked && last && usage && *usage > last->second) {
      UseState state = use_state(facts, event.day);
      const bool told = state.kind == UseKind::out_of_use || (state.kind == UseKind::laid_up && still);
      // Of what was shown on its last day of work nobody can say that it was run afterwards.
      if (told && *state.since < event.day) {
        const bool all_of_it = last->first >= *state.since;
        runs.push_back({&machine, &meter, event.fact->id, std::move(state), *usage - last->second, last->first,
                        event.day, all_of_it, still});
      }
    }
    if (usage) last = {event.day, *usage};
  }
}

}  // namespace

std::vector<RunNotInUse> run_not_in_use(const Entered& entered) {
  std::map<std::pair<std::string, std::string>, std::set<FactId>> fresh;
  for (const Fact& fact : entered.added) {
    const bool shows = fact.kind == FactKind::reading || fact.kind == FactKind::service;
    if (shows && fact.at) fresh[{fact.machine, fact.meter}].insert(fact.id);
  }
  std::vector<RunNotInUse> runs;
  for (const auto& [of, facts] : fresh) {
    const Machine* machine = entered.is->fleet().machine(of.first);
    const Meter* meter = machine == nullptr ? nullptr : machine->meter(of.second);
    if (meter == nullptr || !stands_ever(entered.is->facts_of(machine->key))) continue;
    add_runs(*machine, *meter, *entered.is, facts, runs);
  }
  return runs;
}

std::vector<const Point*> not_put_off(const Entered& entered) {
  std::vector<const Point*> points;
  if (entered.after == nullptr) return points;
  const auto covered = [&](const Point& point, const Fact& fact) {
    if (fact.kind != FactKind::put_off || fact.machine != point.machine->key || fact.task == point.name) return false;
    const auto by = counted_as(entered.after->fleet->schedule_of(*point.machine), point.name);
    return std::find(by.begin(), by.end(), fact.task) != by.end();
  };
  for (const Point& point : entered.after->points) {
    if (point.follow_up != nullptr || !never_waits(point) || !needs_seeing_to(point)) continue;
    const bool is_covered =
        std::any_of(entered.added.begin(), entered.added.end(), [&](const Fact& fact) { return covered(point, fact); });
    if (is_covered) points.push_back(&point);
  }
  return points;
}

std::vector<const Machine*> unsafe_now(const Entered& entered) {
  std::vector<const Machine*> machines;
  if (entered.after == nullptr) return machines;
  const NotToRun not_to_run(*entered.after);  // of these it is decided
  for (const PointChange& change : entered.changes) {
    if (change.after == nullptr || !never_waits(*change.after) || change.after->standing != Standing::overdue) continue;
    if (change.before != nullptr && change.before->standing == Standing::overdue) continue;
    const Machine* machine = change.after->machine;
    if (entered.after->state_of(*machine) != nullptr || not_to_run.holds(*machine)) continue;
    if (std::find(machines.begin(), machines.end(), machine) == machines.end()) machines.push_back(machine);
  }
  return machines;
}

}  // namespace service
