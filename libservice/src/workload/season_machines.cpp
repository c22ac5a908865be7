#include "workload/season_machines.h"

#include <algorithm>
#include <cstdint>

namespace service::load {

bool works_in(UseAhead& use, const Machine& machine, const Season& season, const SeasonDays& days) {
  if (machine.left && *machine.left <= days.from) return false;
  const auto& named = machine.expect.by_season;
  const bool expected = std::any_of(named.begin(), named.end(), [&](const auto& each) {
    return each.first == season.key && each.second.hundredths > 0;
  });
  if (expected) return true;
  constexpr int year = 365;
  const Day before = days.from - std::chrono::days{1};
  const std::int64_t length = days_between(before, days.to);
  // Nothing is said of use beyond the horizon.
  const Day horizon = add_months(use.snapshot().as_of(), horizon_months);
  const Day year_from = std::min(before, horizon - std::chrono::days{year});
  bool known = false;
  for (const Meter& meter : machine.meters) {
    const auto start = use.usage_on(machine, meter.name, before);
    const auto end = use.usage_on(machine, meter.name, days.to);
    const auto year_start = use.usage_on(machine, meter.name, year_from);
    const auto year_end = use.usage_on(machine, meter.name, year_from + std::chrono::days{year});
    if (!start || !end || !year_start || !year_end) continue;
    known = true;
    // 2 x use in the season / its days >= use in the year / its days
    if (std::int64_t{2} * year * (*end - *start).hundredths >= length * (*year_end - *year_start).hundredths)
      return true;
  }
  return !known;
}

}  // namespace service::load
