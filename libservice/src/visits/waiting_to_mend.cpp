#include "service/waiting_to_mend.h"

#include <algorithm>
#include <string_view>
#include <utility>

#include "service/minding.h"

namespace service {
namespace {

// `fork@left` of `fork@left found worn`, and how it was found.
std::pair<std::string_view, Found> found_of(std::string_view sign) {
  constexpr std::string_view worn = " found worn";
  constexpr std::string_view failed = " found failed";
  if (sign.ends_with(worn)) return {sign.substr(0, sign.size() - worn.size()), Found::worn};
  return {sign.substr(0, sign.size() - failed.size()), Found::failed};
}

const Call* call_to(const Fleet& fleet, const Machine& machine) {
  const auto call =
      std::find_if(fleet.calls.begin(), fleet.calls.end(), [&](const Call& one) { return one.machine == machine.key; });
  return call == fleet.calls.end() ? nullptr : &*call;
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
    one.site = fleet.site(seen.machine->site);
    one.state = list.state_of(*seen.machine);
    one.call = call_to(fleet, *seen.machine);
    if (by_a_check) {
      const auto [label, found] = found_of(seen.sign);
      const std::size_t at = label.find('@');
      one.task = label.substr(0, at);
      if (at != std::string_view::npos) one.position = label.substr(at + 1);
      one.found = found;
    }
    if (seen.found) one.found = *seen.found;
  }
  return all;
}

}  // namespace service
