#include "workload/outlooks.h"

#include <algorithm>
#include <atomic>
#include <future>
#include <thread>

#include "service/in_scope.h"
#include "workload/path_sums.h"

namespace service::load {
namespace {

constexpr std::size_t together = 64;  // machines whose paths are drawn side by side: enough to share out evenly

Drawn draw(const Outlook& outlook, Day to) {
  Drawn drawn;
  drawn.reserve(sample_paths);
  for (std::size_t path = 0; path < sample_paths; ++path) drawn.push_back(outlook.draw(path, to));
  return drawn;
}

// Each outlook is asked by one thread at a time, and they share nothing that changes.
std::vector<Drawn> draw_all(const std::vector<std::pair<const Machine*, Outlook>>& ahead, Day to) {
  std::vector<Drawn> all(ahead.size());
  std::atomic<std::size_t> next = 0;
  const auto work = [&] {
    for (std::size_t i = next++; i < ahead.size(); i = next++) all[i] = draw(ahead[i].second, to);
  };
  const std::size_t helpers = std::min<std::size_t>(std::thread::hardware_concurrency(), ahead.size());
  std::vector<std::future<void>> others;
  for (std::size_t i = 1; i < helpers; ++i) others.push_back(std::async(std::launch::async, work));
  work();
  for (auto& other : others) other.get();  // what failed there fails here
  return all;
}

}  // namespace

NotToRun not_to_run_of(const Snapshot& snapshot) {
  DueAsk ask{snapshot.as_of(), {}, Detail::standings};
  ask.keep = Keep::forbidding;
  ask.gaps_of_machines = false;
  return NotToRun(due_list(snapshot, ask, straight_line()));
}

void each_outlook(const Snapshot& snapshot, Day to, Detail detail, const Forecaster& forecaster,
                  const Progress& progress, const Unsaid& unsaid,
                  const std::function<void(const Machine&, const Outlook&, const Drawn&)>& visit) {
  const auto& machines = snapshot.fleet().machines;
  unsaid.gaps = fleet_gaps(snapshot);
  const InScope scope(snapshot.scope());
  std::vector<std::pair<const Machine*, Outlook>> ahead;
  const auto visit_all = [&] {
    const std::vector<Drawn> drawn = draw_all(ahead, to);
    for (std::size_t k = 0; k < ahead.size(); ++k) visit(*ahead[k].first, ahead[k].second, drawn[k]);
    ahead.clear();
  };
  for (std::size_t i = 0; i < machines.size(); ++i) {
    const Machine& machine = machines[i];
    if (progress) progress(i, machines.size());
    if (!scope.holds(machine.key) || !kept_on(machine, snapshot.as_of())) continue;
    Outlook outlook(snapshot, machine, forecaster, detail);
    unsaid.gaps.insert(unsaid.gaps.end(), outlook.gaps().begin(), outlook.gaps().end());
    for (const std::size_t k : outlook.unknown()) {
      unsaid.unknown.push_back(name_of(outlook.today()[k]));
    }
    if (UseState state = state_told(snapshot, machine); state.kind != UseKind::in_use) {
      unsaid.not_in_use.push_back({&machine, std::move(state)});
    }
    if (!outlook.stands()) ahead.emplace_back(&machine, std::move(outlook));
    if (ahead.size() == together) visit_all();
  }
  visit_all();
}

}  // namespace service::load
