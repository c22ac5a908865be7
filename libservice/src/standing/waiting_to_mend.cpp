#include "service/waiting_to_mend.h"

#include <algorithm>
#include <string_view>

#include "service/minding.h"
#include "service/run_ban.h"
#include "service/snapshot.h"

namespace service {
namespace {

// What was measured of a point whose task renews nothing, at or past its limit.
std::vector<const LimbStanding*> past_limit(const Point& point) {
  std::vector<const LimbStanding*> limbs;
  if (renews(*point.machine, {point.task, nullptr})) return limbs;
  for (const LimbStanding& limb : point.limbs) {
    if (limb.kind == LimbKind::measured && reached(limb)) limbs.push_back(&limb);
  }
  return limbs;
}

// What of a point waits: what its own task does not mend. On a machine that stands nothing is planned, so there all
// that forbids to run it waits as well, if a service would mend it.
std::vector<const LimbStanding*> waiting_limbs(const DueList& list, const Point& point) {
  std::vector<const LimbStanding*> limbs;
  if (to_mend(list.seen, point).empty()) limbs = past_limit(point);
  if (list.state_of(*point.machine) == nullptr) return limbs;
  for (const LimbStanding* limb : forbidding_limbs(point)) {
    if (std::find(limbs.begin(), limbs.end(), limb) == limbs.end()) limbs.push_back(limb);
  }
  return limbs;
}

// `fork@left` of `fork@left found worn`.
std::string_view without_found(std::string_view sign) {
  for (const std::string_view end : {" found worn", " found failed"}) {
    if (sign.ends_with(end)) return sign.substr(0, sign.size() - end.size());
  }
  return sign;
}

const Call* call_to(const Fleet& fleet, const Machine& machine) {
  const auto call =
      std::find_if(fleet.calls.begin(), fleet.calls.end(), [&](const Call& one) { return one.machine == machine.key; });
  return call == fleet.calls.end() ? nullptr : &*call;
}

// Where it stands, and who may come for it.
WaitsToMend placed(const Fleet& fleet, const Machine& machine, const UseState* state) {
  WaitsToMend one;
  one.machine = &machine;
  one.site = fleet.site(machine.site);
  one.state = state;
  one.call = call_to(fleet, machine);
  return one;
}

}  // namespace

WaitsToMend waits_to_mend(const Fleet& fleet, const SeenSign& seen, const UseState* state) {
  WaitsToMend one = placed(fleet, *seen.machine, state);
  one.seen = &seen;
  one.found = found_of(fleet, seen);
  if (found_bad_task(fleet, seen) == nullptr) return one;
  const std::string_view label = without_found(seen.sign);
  const std::size_t at = label.find('@');
  one.task = label.substr(0, at);
  if (at != std::string_view::npos) one.position = label.substr(at + 1);
  return one;
}

WaitsToMend waits_to_mend(const Fleet& fleet, const Point& point, const LimbStanding& limb, const UseState* state) {
  WaitsToMend one = placed(fleet, *point.machine, state);
  one.point = &point;
  one.limb = &limb;
  one.task = point.name;
  one.position = point.position;
  one.found = limb.found;
  return one;
}

std::string label_of(const WaitsToMend& one) {
  return one.task.empty() ? one.seen->sign : point_label(one.task, one.position);
}

std::vector<WaitsToMend> waiting_to_mend(const DueList& list) {
  const Fleet& fleet = *list.fleet;
  std::vector<WaitsToMend> all;
  for (const SeenSign& seen : list.seen) {
    const UseState* const state = list.state_of(*seen.machine);
    const bool forbids = state != nullptr && forbids_running(seen);
    if (!found_of(fleet, seen) && !forbids) continue;  // nobody has looked yet, so nobody knows
    all.push_back(waits_to_mend(fleet, seen, state));
  }
  for (const Point& point : list.points) {
    for (const LimbStanding* limb : waiting_limbs(list, point)) {
      all.push_back(waits_to_mend(fleet, point, *limb, list.state_of(*point.machine)));
    }
  }
  return all;
}

bool leaves_unmended(const DueList& list, const Point& point) {
  if (renews(*point.machine, {point.task, point.follow_up})) return false;
  return !past_limit(point).empty() || !to_mend(list.seen, point).empty();
}

}  // namespace service
