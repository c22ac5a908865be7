#include "service/waiting_to_mend.h"

#include <algorithm>
#include <string_view>

#include "service/minding.h"
#include "service/snapshot.h"

namespace service {
namespace {

// What was measured of a point whose task puts in nothing new, at or past its limit.
std::vector<const LimbStanding*> past_limit(const Point& point) {
  std::vector<const LimbStanding*> limbs;
  if (puts_in_new(*point.machine, {point.task, nullptr})) return limbs;
  for (const LimbStanding& limb : point.limbs) {
    if (limb.kind == LimbKind::measured && reached(limb)) limbs.push_back(&limb);
  }
  return limbs;
}

// `fork@left` of `fork@left found worn`.
std::string_view label_of(std::string_view sign) {
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
void place(WaitsToMend& one, const DueList& list, const Machine& machine) {
  one.machine = &machine;
  one.site = list.fleet->site(machine.site);
  one.state = list.state_of(machine);
  one.call = call_to(*list.fleet, machine);
}

}  // namespace

std::vector<WaitsToMend> waiting_to_mend(const DueList& list) {
  const Fleet& fleet = *list.fleet;
  std::vector<WaitsToMend> all;
  for (const SeenSign& seen : list.seen) {
    const bool by_a_check = found_bad_task(fleet, seen) != nullptr;
    if (!by_a_check && !seen.found) continue;  // nobody has looked yet, so nobody knows
    WaitsToMend& one = all.emplace_back();
    one.seen = &seen;
    one.found = found_of(fleet, seen);
    place(one, list, *seen.machine);
    if (by_a_check) {
      const std::string_view label = label_of(seen.sign);
      const std::size_t at = label.find('@');
      one.task = label.substr(0, at);
      if (at != std::string_view::npos) one.position = label.substr(at + 1);
    }
  }
  for (const Point& point : list.points) {
    if (!to_mend(list.seen, point).empty()) continue;
    for (const LimbStanding* limb : past_limit(point)) {
      WaitsToMend& one = all.emplace_back();
      one.point = &point;
      one.limb = limb;
      one.task = point.name;
      one.position = point.position;
      place(one, list, *point.machine);
    }
  }
  return all;
}

bool leaves_unmended(const DueList& list, const Point& point) {
  if (puts_in_new(*point.machine, {point.task, point.follow_up})) return false;
  return !past_limit(point).empty() || !to_mend(list.seen, point).empty();
}

}  // namespace service
