#include "service/not_to_run.h"

#include <algorithm>
#include <deque>
#include <map>
#include <string_view>
#include <unordered_map>

namespace service {

bool RunBan::forbidden_by(const Point& point) const {
  return std::any_of(points.begin(), points.end(), [&](const Point* each) { return name_of(*each) == name_of(point); });
}

std::vector<RunBan> run_bans(const DueList& list) {
  std::map<const Machine*, RunBan> by_machine;  // they stand in one vector, in the order of the fleet file
  std::map<std::string_view, const UseState*> states;
  for (const MachineUse& use : list.not_in_use) {
    states.emplace(use.machine->key, &use.state);
    if (use.state.kind == UseKind::out_of_use) by_machine[use.machine];
  }
  for (const Point& point : list.points) {
    if (forbids_running(point)) by_machine[point.machine].points.push_back(&point);
  }
  for (const SeenSign& seen : list.seen) {
    if (forbids_running(seen)) by_machine[seen.machine].seen.push_back(&seen);
  }
  std::vector<RunBan> all;
  for (auto& [machine, ban] : by_machine) {
    ban.machine = machine;
    const auto state = states.find(machine->key);
    ban.state = state == states.end() ? nullptr : state->second;
    all.push_back(std::move(ban));
  }
  std::stable_partition(all.begin(), all.end(), [](const RunBan& ban) { return ban.out_of_use(); });
  return all;
}

// What the bans point to, in places that stay.
struct NotToRun::Kept {
  std::deque<Point> points;
  std::deque<SeenSign> seen;
  std::deque<UseState> states;
  std::vector<RunBan> bans;
  std::unordered_map<const Machine*, const RunBan*> of;
};

NotToRun::NotToRun(const DueList& list, const Site* site)
    : NotToRun(list, [&](const Machine& machine) { return site == nullptr || machine.site == site->key; }) {}

NotToRun::NotToRun(const DueList& list, const std::function<bool(const Machine&)>& told) {
  auto kept = std::make_shared<Kept>();
  std::vector<RunBan> bans = run_bans(list);
  for (RunBan& ban : bans) {
    if (!told(*ban.machine)) continue;
    if (ban.state != nullptr) ban.state = &kept->states.emplace_back(*ban.state);
    for (const Point*& point : ban.points) point = &kept->points.emplace_back(*point);
    for (const SeenSign*& seen : ban.seen) seen = &kept->seen.emplace_back(*seen);
    kept->bans.push_back(std::move(ban));
  }
  for (const RunBan& ban : kept->bans) kept->of.emplace(ban.machine, &ban);
  kept_ = std::move(kept);
}

const RunBan* NotToRun::ban_of(const Machine& machine) const {
  if (kept_ == nullptr) return nullptr;
  const auto found = kept_->of.find(&machine);
  return found == kept_->of.end() ? nullptr : found->second;
}

const std::vector<RunBan>& NotToRun::bans() const {
  static const std::vector<RunBan> none;
  return kept_ == nullptr ? none : kept_->bans;
}

}  // namespace service
