#include "service/left_open.h"

#include <algorithm>
#include <map>
#include <set>
#include <string_view>
#include <utility>

namespace service {
namespace {

// The facts that tell of signs which are open on a list: each sighting, and the looks that found them worn or failed.
std::set<FactId> open_by(const DueList& list) {
  std::set<FactId> open;
  for (const SeenSign& seen : list.seen) {
    for (const Sighting& one : seen.sightings) open.insert(one.fact);
    if (seen.looked_fact) open.insert(*seen.looked_fact);
  }
  for (const Point& point : list.points) {
    for (const LimbStanding& limb : point.limbs) {
      const NoticedSign* const sign = limb.open_sign();
      if (sign == nullptr) continue;
      for (const Sighting& one : sign->sightings) open.insert(one.fact);
      for (const SignLook& look : sign->looks) open.insert(look.fact);
    }
  }
  return open;
}

bool is_out_of_use(const DueList& list, const Machine& machine) {
  const UseState* const state = list.state_of(machine);
  return state != nullptr && state->kind == UseKind::out_of_use;
}

// Whoever said so knows better than the words of a sign before it.
bool is_back_since(std::span<const Fact> facts, const Fact& told) {
  return std::any_of(facts.begin(), facts.end(), [&](const Fact& fact) {
    return fact.kind == FactKind::back && std::pair(fact.on.first, fact.id) > std::pair(told.on.first, told.id);
  });
}

// A note of long ago: what it tells of was done once more since.
bool is_done_since(std::span<const Fact> facts, const Fact& told) {
  if (told.kind != FactKind::service && told.kind != FactKind::put_off) return false;
  return std::any_of(facts.begin(), facts.end(), [&](const Fact& fact) {
    return fact.kind == FactKind::service && fact.task == told.task && fact.position == told.position &&
           fact.on.first > told.on.last;
  });
}

// Of a sign what it is called says it too, and it says it no more once somebody found it good.
bool is_of_sign(const Fact& fact) { return fact.kind == FactKind::sign || fact.kind == FactKind::looked_at; }

StopTold told_by(const Fleet& fleet, const Machine& machine, const Fact& fact) {
  if (fact.kind == FactKind::out_of_use || fact.kind == FactKind::strike) return {};
  if (fact.kind == FactKind::looked_at && !found_bad(fact)) return {};  // it would have been refused
  return is_of_sign(fact) ? stop_told(fleet, machine, fact.name, fact.note) : stop_told(fact.note);
}

// What was done of one machine, and what was open at the points of that before.
struct Served {
  std::set<std::string_view> tasks;
  std::set<std::string_view> signs;
};

std::map<std::string_view, Served> served_of(const Entered& entered) {
  std::map<std::string_view, Served> served;
  for (const Fact& fact : entered.added) {
    if (fact.kind == FactKind::service) served[fact.machine].tasks.insert(fact.task);
  }
  return served;
}

bool is_served(const Fleet& fleet, const Point& point, const Served& served) {
  if (point.follow_up != nullptr) return false;
  const auto names = counted_as(fleet.schedule_of(*point.machine), point.task->name);
  return std::any_of(names.begin(), names.end(), [&](const std::string& name) { return served.tasks.contains(name); });
}

template <class Use>
void each_open_sign(const DueList& list, std::map<std::string_view, Served>& served, Use use) {
  for (const Point& point : list.points) {
    const auto of = served.find(point.machine->key);
    if (of == served.end()) continue;
    for (const LimbStanding& limb : point.limbs) {
      if (const NoticedSign* const sign = limb.open_sign()) use(point, *sign, of->second);
    }
  }
}

}  // namespace

std::vector<StopNotTaken> stops_not_taken(const Entered& entered) {
  std::vector<StopNotTaken> all;
  if (entered.after == nullptr) return all;
  const Fleet& fleet = *entered.after->fleet;
  std::optional<std::set<FactId>> open;
  for (const Fact& fact : entered.added) {
    const Machine* const machine = fleet.machine(fact.machine);
    if (machine == nullptr) continue;
    const StopTold told = told_by(fleet, *machine, fact);
    if (told.says == MustNotRun::not_said || is_out_of_use(*entered.after, *machine)) continue;
    if (is_of_sign(fact) && !open) open = open_by(*entered.after);
    if (is_of_sign(fact) && !open->contains(fact.id)) continue;
    const auto facts = entered.is->facts_of(fact.machine);
    if (is_back_since(facts, fact) || is_done_since(facts, fact)) continue;
    all.push_back({&fact, told.says});
  }
  return all;
}

std::vector<const Gap*> newly_asked(const Entered& entered) {
  std::vector<const Gap*> gaps;
  if (entered.after == nullptr) return gaps;
  const auto runs = run_not_in_use(entered);
  for (const Gap& gap : entered.after->gaps) {
    if (gap.kind != GapKind::ran_while_not_in_use) continue;
    const auto is_it = [&](const Gap& other) {
      return other.kind == gap.kind && other.machine == gap.machine && other.meter == gap.meter;
    };
    const bool was = std::any_of(entered.before->gaps.begin(), entered.before->gaps.end(), is_it);
    const bool is_told = std::any_of(runs.begin(), runs.end(), [&](const RunNotInUse& run) {
      return run.machine->key == gap.machine && run.meter->name == gap.meter;
    });
    if (!was && !is_told) gaps.push_back(&gap);
  }
  return gaps;
}

std::vector<SignLeft> signs_left(const Entered& entered) {
  std::vector<SignLeft> left;
  auto served = served_of(entered);
  if (entered.after == nullptr || served.empty()) return left;
  const Fleet& fleet = *entered.after->fleet;
  std::set<FactId> added;
  for (const Fact& fact : entered.added) added.insert(fact.id);
  for (const SeenSign& seen : entered.after->seen) {
    const bool is_new = added.contains(seen.newest);
    if (served.contains(seen.machine->key) && !is_new) left.push_back({&seen, nullptr, nullptr});
  }
  each_open_sign(*entered.before, served, [&](const Point& point, const NoticedSign& sign, Served& of) {
    if (is_served(fleet, point, of)) of.signs.insert(sign.name);
  });
  each_open_sign(*entered.after, served, [&](const Point& point, const NoticedSign& sign, Served& of) {
    const bool is_new = added.contains(sign.sightings.back().fact);
    if (!is_new && (of.signs.contains(sign.name) || is_served(fleet, point, of))) {
      left.push_back({nullptr, &point, &sign});
    }
  });
  return left;
}

}  // namespace service
