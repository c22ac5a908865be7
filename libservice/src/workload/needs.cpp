#include "workload/needs.h"

#include <algorithm>
#include <tuple>

#include "workload/prices.h"

namespace service::load {
namespace {

// What a service written down took of a part.
Amount taken(const Fleet& fleet, const Machine& machine, const Fact& fact, const Part& part) {
  const Task* task = fleet.schedule_of(machine).task(fact.task);
  if (task == nullptr) return {};  // a check, or a task that is gone
  const Takings takings = takings_of(machine, *task);
  Amount amount;
  for (const auto& [key, pieces] : takings.parts) {
    if (key == part.key) amount = amount + pieces;
  }
  for (const auto& [key, quantity] : takings.fluids) {
    if (key == part.key && quantity.unit == part.unit) amount = amount + quantity.amount;
  }
  // A service that names no position of a task that has some was done at all of them.
  const auto own = task_of(fleet, machine, fact.task);
  const bool everywhere = fact.position.empty() && own && !own->positions.empty();
  return everywhere ? Amount{amount.hundredths * static_cast<std::int64_t>(own->positions.size())} : amount;
}

void hold_against_stock(PartNeed& need) {
  std::sort(need.uses.begin(), need.uses.end(), [](const PartUse& a, const PartUse& b) {
    return std::tuple{a.due.p10.value_or(Day::max()), a.machine->key, a.point, a.round} <
           std::tuple{b.due.p10.value_or(Day::max()), b.machine->key, b.point, b.round};
  });
  const Amount stock = need.stock.value_or(Amount{});
  for (const PartUse& use : need.uses) {
    if (!use.likely) {
      need.more = need.more + use.amount;
      continue;
    }
    need.need = need.need + use.amount;
    if (need.need > stock && !need.short_on) need.short_on = use.due.p10;
  }
  if (need.need <= stock) return;
  need.short_by = need.need - stock;
  const Amount pack = need.part != nullptr && need.part->pack ? *need.part->pack : Amount{};
  need.buy = need.short_by;
  if (pack.hundredths > 0) {
    const std::int64_t count = (need.short_by.hundredths + pack.hundredths - 1) / pack.hundredths;
    need.packs = whole(count);
    need.buy = Amount{count * pack.hundredths};
  }
  if (need.part == nullptr) return;
  if (need.part->price) need.price = Amount{money(need.buy, *need.part->price)};
  if (need.short_on && need.part->lead_days) need.order_by = *need.short_on - date::days{*need.part->lead_days};
}

}  // namespace

void add_uses(std::vector<Use>& uses, const Takings& takings, const PartUse& as) {
  for (const auto& [key, pieces] : takings.parts) {
    Use use{key, false, "", as};
    use.use.amount = pieces;
    uses.push_back(std::move(use));
  }
  for (const auto& [key, quantity] : takings.fluids) {
    Use use{key, true, quantity.unit, as};
    use.use.amount = quantity.amount;
    uses.push_back(std::move(use));
  }
}

Stock stock_of(const Snapshot& snapshot, const Part& part) {
  const Fact* count = nullptr;
  for (const Fact& fact : snapshot.facts_of("")) {
    if (fact.kind == FactKind::count && fact.part == part.key && fact.value) count = &fact;
  }
  if (count == nullptr) return {part.stock, std::nullopt};
  Amount left{count->value->millionths / 10'000};
  for (const Machine& machine : snapshot.fleet().machines) {
    for (const Fact& fact : snapshot.facts_of(machine.key)) {
      if (fact.kind != FactKind::service || before(fact, *count)) continue;
      left = left - taken(snapshot.fleet(), machine, fact, part);
    }
  }
  return {std::max(left, Amount{}), count->on.first};
}

std::vector<PartNeed> needs_of(const Snapshot& snapshot, std::vector<Use> uses) {
  const Prices prices(snapshot.fleet());
  std::map<std::tuple<std::string, bool, std::string>, PartNeed> by_part;
  for (Use& use : uses) {
    PartNeed& need = by_part[{use.key, use.fluid, use.unit}];
    need.key = use.key;
    need.fluid = use.fluid;
    need.unit = use.unit;
    need.uses.push_back(std::move(use.use));
  }
  std::vector<PartNeed> needs;
  for (auto& [key, need] : by_part) {
    const Part* part = prices.part(need.key);
    // A part that is listed in another unit is not that part.
    if (part != nullptr && need.fluid && part->unit != need.unit) part = nullptr;
    if (part != nullptr) {
      need.part = part;
      need.unit = part->unit;
      const Stock stock = stock_of(snapshot, *part);
      need.stock = stock.amount;
      need.counted_on = stock.counted_on;
    }
    hold_against_stock(need);
    needs.push_back(std::move(need));
  }
  std::stable_sort(needs.begin(), needs.end(), [](const PartNeed& a, const PartNeed& b) {
    const auto rank = [](const PartNeed& need) {
      const bool enough = need.short_by <= Amount{};
      return std::tuple{enough, need.order_by.value_or(need.short_on.value_or(Day::max()))};
    };
    return rank(a) < rank(b);
  });
  return needs;
}

}  // namespace service::load
