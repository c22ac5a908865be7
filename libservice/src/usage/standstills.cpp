#include "usage/standstills.h"

#include <algorithm>

namespace service::usage {

std::vector<Standstill> standstills_of(std::span<const Fact> facts, Day end) {
  std::vector<Standstill> standstills;
  std::optional<Day> since;
  std::optional<Day> until;
  const auto over = [&](Day day) {
    const Day to = until ? std::min(*until, day) : day;
    if (*since < to) standstills.push_back({*since, to});
    since.reset();
    until.reset();
  };
  for (const Fact& fact : facts) {  // in the one order
    switch (fact.kind) {
      case FactKind::laid_up:
      case FactKind::out_of_use:
        if (since) over(fact.on.first);
        since = fact.on.first;
        until = fact.kind == FactKind::laid_up ? fact.until : std::nullopt;
        break;
      case FactKind::back:
        if (since) over(fact.on.first);
        break;
      default:
        break;
    }
  }
  if (since) over(end);
  return standstills;
}

std::vector<BinDays> days_in_use(Day from, Day to, const std::vector<Standstill>& standstills) {
  std::vector<BinDays> days;
  Day at = from;
  const auto add = [&](Day until) {
    if (at >= until) return;
    if (days.empty()) {
      days = days_by_bin(at, until);
      return;
    }
    for (const BinDays& some : days_by_bin(at, until)) {
      if (!days.empty() && days.back().bin == some.bin) {
        days.back().days += some.days;
      } else {
        days.push_back(some);
      }
    }
  };
  for (const Standstill& standstill : standstills) {
    if (standstill.to <= at || standstill.from >= to) continue;
    add(standstill.from);
    at = std::max(at, standstill.to);
  }
  add(to);
  return days;
}

}  // namespace service::usage
