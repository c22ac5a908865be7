#include "workload/lacking.h"

#include <algorithm>

namespace service::load {

std::vector<Lacking> lacking_of(const PartNeed& need) {
  const PartAmount stock = need.stock.value_or(PartAmount{});
  PartAmount taken;
  std::vector<Lacking> all;
  for (const PartUse& use : need.uses) {
    if (!use.likely) continue;
    taken = taken + use.amount;
    if (taken > stock) all.push_back({&use, std::min(taken - stock, use.amount)});
  }
  return all;
}

std::optional<Day> late_until(const PartNeed& need) {
  if (!need.short_on || need.late_days == 0) return std::nullopt;
  return *need.short_on + std::chrono::days{need.late_days};
}

PartLack lack_of(const PartNeed& need, PartAmount amount, Day on, Day as_of) {
  PartLack lack{need.key, need.unit, true, amount, on, need.order_by, need.late_days, {}};
  const auto lead_days = need.part == nullptr ? std::nullopt : need.part->lead_days;
  if (lead_days) lack.there = std::max(on, as_of + std::chrono::days{*lead_days});
  return lack;
}

}  // namespace service::load
