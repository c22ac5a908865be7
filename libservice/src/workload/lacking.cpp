#include "workload/lacking.h"

#include <algorithm>

namespace service {

namespace load {

namespace {

// Of others, for whom there is something.
std::vector<KeptFor> kept_before(const PartNeed& need, const PartUse& turn) {
  std::vector<KeptFor> kept;
  PartAmount left = need.stock.value_or(PartAmount{});
  for (const PartUse& use : need.uses) {
    if (&use == &turn || left.hundredths <= 0) break;
    if (!use.likely) continue;
    left = left - use.amount;
    const auto same = [&](const KeptFor& one) { return one.machine == use.machine->key; };
    if (use.machine == turn.machine || std::any_of(kept.begin(), kept.end(), same)) continue;
    kept.push_back({use.machine->key, *use.done.p10});
  }
  return kept;
}

}  // namespace

std::vector<Lacking> lacking_of(const PartNeed& need) {
  const PartAmount stock = need.stock.value_or(PartAmount{});
  PartAmount taken;
  std::vector<Lacking> all;
  for (const PartUse& use : need.uses) {
    if (!use.likely) continue;
    taken = taken + use.amount;
    if (taken > stock) all.push_back({&use, std::min(taken - stock, use.amount), kept_before(need, use)});
  }
  return all;
}

std::optional<Day> late_until(const PartNeed& need) {
  if (!need.short_on || need.late_days == 0) return std::nullopt;
  return *need.short_on + std::chrono::days{need.late_days};
}

PartLack lack_of(const PartNeed& need, const Lacking& lacking, Day on, Day as_of) {
  PartLack lack = service::lack_of(need, lacking.amount, on, as_of);
  lack.kept_for = lacking.kept_for;
  if (!lack.kept_for.empty()) lack.in_stock = need.stock.value_or(PartAmount{});
  return lack;
}

}  // namespace load

PartLack lack_of(const PartNeed& need, PartAmount short_by, Day on, Day as_of) {
  PartLack lack{need.key, need.unit, true, short_by, on, need.order_by, need.late_days};
  const auto lead_days = need.part == nullptr ? std::nullopt : need.part->lead_days;
  if (lead_days) lack.there = std::max(on, as_of + std::chrono::days{*lead_days});
  return lack;
}

void add_lack(std::vector<PartLack>& lacks, const PartLack& lack) {
  const auto same = std::find_if(lacks.begin(), lacks.end(), [&](const PartLack& one) { return one.key == lack.key; });
  if (same == lacks.end()) {
    lacks.push_back(lack);
    return;
  }
  same->short_by = same->short_by + lack.short_by;
  same->short_on = std::min(same->short_on, lack.short_on);
  same->in_stock = std::max(same->in_stock, lack.in_stock);
  same->taken_before = std::max(same->taken_before, lack.taken_before);
  for (const KeptFor& kept : lack.kept_for) {
    const auto is_it = [&](const KeptFor& one) { return one.machine == kept.machine; };
    if (std::none_of(same->kept_for.begin(), same->kept_for.end(), is_it)) same->kept_for.push_back(kept);
  }
}

}  // namespace service
