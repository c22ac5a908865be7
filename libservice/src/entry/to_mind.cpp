// What somebody has to hear of who entered facts: use of a machine that is not to be used, safety that a delay does not
// put off, machines on which something for safety is overdue now.
#include <algorithm>
#include <map>
#include <set>
#include <string_view>
#include <unordered_map>
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
  const UseState today = use_state(now, machine);
  const bool still = today.kind != UseKind::in_use;
  const MeterHistory history(machine, meter, facts);
  struct Value {
    Day day;
    Amount usage;
    Amount shown;
  };
  std::optional<Value> last;
  for (const MeterEvent& event : meter_events(machine, meter, facts)) {
    const auto usage = event.fact == nullptr ? history.on(event.day) : history.usage_of(event.fact->id);
    const bool asked = event.fact != nullptr && fresh.contains(event.fact->id);
    if (asked && last && usage && *usage > last->usage && !may_be_no_use(last->shown, event.shown)) {
      UseState state = use_state(facts, event.day);
      const bool open = still || (today.ran_out && today.ran_out->since == state.since);
      const bool told = state.kind == UseKind::out_of_use || (state.kind == UseKind::laid_up && open);
      // Of what was shown on its last day of work nobody can say that it was run afterwards.
      if (told && *state.since < event.day) {
        const bool all_of_it = last->day >= *state.since;
        runs.push_back({&machine, &meter, event.fact->id, std::move(state), *usage - last->usage, last->day, event.day,
                        all_of_it, still});
      }
    }
    if (usage) last = {event.day, *usage, event.fresh.value_or(event.shown)};
  }
}

}  // namespace

std::vector<RunNotInUse> run_not_in_use(const Entered& entered) {
  std::unordered_map<std::string_view, bool> stood;
  std::map<std::pair<std::string_view, std::string_view>, std::set<FactId>> fresh;
  for (const Fact& fact : entered.added) {
    const bool shows = fact.kind == FactKind::reading || fact.kind == FactKind::service;
    if (!shows || !fact.at) continue;
    const auto [at, is_new] = stood.try_emplace(fact.machine, false);
    if (is_new) at->second = stands_ever(entered.is->facts_of(fact.machine));
    if (at->second) fresh[{fact.machine, fact.meter}].insert(fact.id);
  }
  std::vector<RunNotInUse> runs;
  for (const auto& [of, facts] : fresh) {
    const Machine* machine = entered.is->fleet().machine(of.first);
    const Meter* meter = machine == nullptr ? nullptr : machine->meter(of.second);
    if (meter != nullptr) add_runs(*machine, *meter, *entered.is, facts, runs);
  }
  return runs;
}

std::vector<const Point*> not_put_off(const Entered& entered) {
  std::vector<const Point*> points;
  if (entered.after == nullptr) return points;
  std::map<std::string_view, std::vector<std::string_view>> put_off;  // tasks by machine
  for (const Fact& fact : entered.added) {
    if (fact.kind == FactKind::put_off) put_off[fact.machine].push_back(fact.task);
  }
  if (put_off.empty()) return points;
  for (const Point& point : entered.after->points) {
    if (point.follow_up != nullptr || !never_waits(point) || !needs_seeing_to(point)) continue;
    const auto tasks = put_off.find(point.machine->key);
    if (tasks == put_off.end()) continue;
    const auto by = counted_as(entered.after->fleet->schedule_of(*point.machine), point.name);
    const bool is_covered = std::any_of(tasks->second.begin(), tasks->second.end(), [&](std::string_view task) {
      return task != point.name && std::find(by.begin(), by.end(), task) != by.end();
    });
    if (is_covered) points.push_back(&point);
  }
  return points;
}

std::vector<const Machine*> unsafe_now(const Entered& entered) {
  std::vector<const Machine*> machines;
  if (entered.after == nullptr) return machines;
  const NotToRun not_to_run(*entered.after);  // of these it is decided
  std::set<std::string_view> not_in_use;
  for (const MachineUse& use : entered.after->not_in_use) not_in_use.insert(use.machine->key);
  std::set<const Machine*> told;
  for (const PointChange& change : entered.changes) {
    if (change.after == nullptr || !never_waits(*change.after) || change.after->standing != Standing::overdue) continue;
    if (change.before != nullptr && change.before->standing == Standing::overdue) continue;
    const Machine* machine = change.after->machine;
    if (not_in_use.contains(machine->key) || not_to_run.holds(*machine)) continue;
    if (told.insert(machine).second) machines.push_back(machine);
  }
  return machines;
}

}  // namespace service
