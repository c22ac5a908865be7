#include "workload/needs.h"

#include <algorithm>
#include <map>
#include <set>
#include <string_view>
#include <tuple>

#include "service/run_ban.h"
#include "workload/prices.h"

namespace service::load {
namespace {

// As they take from the stock.
bool goes_before(const Use& a, const Use& b) {
  const Day day_a = a.use.done.p10.value_or(Day::max());
  const Day day_b = b.use.done.p10.value_or(Day::max());
  if (day_a != day_b) return day_a < day_b;
  if (a.use.ready != b.use.ready) return b.use.ready;
  if (a.rank.stopped != b.rank.stopped) return b.rank.stopped;
  if (a.rank.standing != b.rank.standing) return worse(a.rank.standing, b.rank.standing);
  if (a.rank.waits != b.rank.waits) return b.rank.waits;
  const auto key = [](const PartUse& use) { return std::tie(use.machine->key, use.task, use.position, use.round); };
  return key(a.use) < key(b.use);
}

// Its uses stand in the order in which they take from it.
void hold_against_stock(PartNeed& need, Day as_of) {
  const PartAmount stock = need.stock.value_or(PartAmount{});
  for (const PartUse& use : need.uses) {
    if (!use.likely) {
      need.more = need.more + use.amount;
      continue;
    }
    need.need = need.need + use.amount;
    if (use.ready) need.ready = need.ready + use.amount;
    need.doubtful = need.doubtful || use.doubtful;
    if (need.need > stock && !need.short_on) need.short_on = use.done.p10;
  }
  if (need.need <= stock) return;
  need.short_by = need.need - stock;
  const PartAmount pack = need.part != nullptr && need.part->pack ? *need.part->pack : PartAmount{};
  need.buy = need.short_by;
  if (pack.hundredths > 0) {
    const std::int64_t count = (need.short_by.hundredths + pack.hundredths - 1) / pack.hundredths;
    need.packs = PartAmount::units(count);
    need.buy = PartAmount{count * pack.hundredths};
  }
  const int lead_days = need.part != nullptr ? need.part->lead_days.value_or(0) : 0;
  if (need.short_on) {
    const Day order = *need.short_on - std::chrono::days{lead_days};
    need.order_by = std::max(order, as_of);
    need.late_days = std::max(0, days_between(order, as_of));
  }
  if (need.price) need.cost = cost_of(need.buy, *need.price);
}

// What is in stock on the snapshot's day: the newest count less what services used since, else the fleet file's figure.
struct Stock {
  std::optional<PartAmount> amount;
  const Fact* count = nullptr;
};

using Stocks = std::map<std::string, Stock>;

// What a service written down used, of the parts that were counted before it.
void use_up(Stocks& stocks, const Fleet& fleet, const Machine& machine, const Fact& fact) {
  const Task* task = fleet.schedule_of(machine).task(fact.task);
  if (task == nullptr) return;  // a check, or a task that is gone
  const Resources resources = resources_of(machine, *task);
  std::int64_t times = 1;
  if (fact.position.empty()) {  // of a task that has positions: done at all of them
    const auto own = task_of(fleet, machine, fact.task);
    if (own && !own->positions.empty()) times = static_cast<std::int64_t>(own->positions.size());
  }
  const auto use = [&](const std::string& key, PartAmount amount) {
    const auto stock = stocks.find(key);
    if (stock == stocks.end() || stock->second.count == nullptr || before(fact, *stock->second.count)) return;
    stock->second.amount = *stock->second.amount - PartAmount{amount.hundredths * times};
  };
  const Prices prices(fleet);
  for (const auto& [key, pieces] : resources.parts) use(key, pieces);
  for (const auto& [key, quantity] : resources.fluids) {
    const Part* part = prices.part(key);
    if (part != nullptr && part->unit == quantity.unit) use(key, quantity.amount);
  }
}

Stocks stocks_of(const Snapshot& snapshot) {
  const Fleet& fleet = snapshot.fleet();
  Stocks stocks;
  for (const Part& part : fleet.parts) stocks.emplace(part.key, Stock{part.stock, nullptr});
  bool any_count = false;
  for (const Fact& fact : snapshot.facts_of("")) {
    const auto stock = stocks.find(fact.part);
    if (fact.kind != FactKind::count || !fact.value || stock == stocks.end()) continue;
    stock->second = {PartAmount{fact.value->millionths / 10'000}, &fact};
    any_count = true;
  }
  if (!any_count) return stocks;
  for (const Machine& machine : fleet.machines) {
    for (const Fact& fact : snapshot.facts_of(machine.key)) {
      if (fact.kind == FactKind::service) use_up(stocks, fleet, machine, fact);
    }
  }
  for (auto& [key, stock] : stocks) {
    if (stock.amount) stock.amount = std::max(*stock.amount, PartAmount{});
  }
  return stocks;
}

}  // namespace

UseRank rank_of(const Point& point, bool may_run, bool mends) {
  return {!may_run && !mends && !forbids_running(point), point.standing, !never_waits(point)};
}

void add_uses(std::vector<Use>& uses, const Resources& resources, const PartUse& as, const UseRank& rank) {
  for (const auto& [key, pieces] : resources.parts) {
    Use use{key, false, "", as, rank};
    use.use.amount = pieces;
    uses.push_back(std::move(use));
  }
  for (const auto& [key, quantity] : resources.fluids) {
    Use use{key, true, quantity.unit, as, rank};
    use.use.amount = quantity.amount;
    uses.push_back(std::move(use));
  }
}

namespace {

// What is left of a part when the work before has taken its own, and what that buys is there.
std::optional<PartAmount> left_of(const PartNeed& need, const std::vector<PartNeed>& before) {
  const auto same = std::find_if(before.begin(), before.end(), [&](const PartNeed& each) {
    return each.part == need.part && each.key == need.key && each.unit == need.unit;
  });
  if (same == before.end()) return need.stock;
  return std::max(need.stock.value_or(PartAmount{}) + same->buy - same->need, PartAmount{});
}

}  // namespace

std::vector<PartNeed> needs_of(const Snapshot& snapshot, std::vector<Use> uses, const std::vector<PartNeed>& before) {
  const Prices prices(snapshot.fleet());
  const Stocks stocks = stocks_of(snapshot);
  std::map<std::tuple<std::string, bool, std::string>, PartNeed> by_part;
  std::stable_sort(uses.begin(), uses.end(), goes_before);
  for (Use& use : uses) {
    const Part* part = prices.part(use.key);
    // A part that is listed in another unit is not that part. What is, is one need whether it is used by the piece or
    // poured, for it comes out of one stock.
    if (part != nullptr && use.fluid && part->unit != use.unit) part = nullptr;
    PartNeed& need =
        by_part[part != nullptr ? std::tuple{use.key, false, part->unit} : std::tuple{use.key, true, use.unit}];
    need.key = use.key;
    need.part = part;
    need.fluid = need.fluid || use.fluid;
    need.unit = part != nullptr ? part->unit : use.unit;
    need.uses.push_back(std::move(use.use));
  }
  std::vector<PartNeed> needs;
  for (auto& [key, need] : by_part) {
    if (need.part != nullptr) {
      const Stock& stock = stocks.find(need.key)->second;
      need.stock = stock.amount;
      need.price = need.part->price;
      if (stock.count != nullptr) need.counted_on = stock.count->on.first;
    }
    need.stock = left_of(need, before);
    hold_against_stock(need, snapshot.as_of());
    needs.push_back(std::move(need));
  }
  std::stable_sort(needs.begin(), needs.end(), [](const PartNeed& a, const PartNeed& b) {
    const auto rank = [](const PartNeed& need) {
      // What should have been ordered long ago comes first.
      return std::tuple{!need.is_short(), need.order_by.value_or(Day::max()) - std::chrono::days{need.late_days}};
    };
    return rank(a) < rank(b);
  });
  return needs;
}

void keep_uses_of(const Snapshot& snapshot, std::vector<PartNeed>& needs, std::vector<Gap>& gaps) {
  const Scope& scope = snapshot.scope();
  if (!scope.machines) return;
  const auto within = [&](const PartUse& use) { return scope.holds(use.machine->key); };
  std::erase_if(needs, [&](const PartNeed& need) { return std::none_of(need.uses.begin(), need.uses.end(), within); });
  std::set<std::string_view> takers;
  for (const PartNeed& need : needs) {
    for (const PartUse& use : need.uses) takers.insert(use.machine->key);
  }
  std::erase_if(gaps, [&](const Gap& gap) {
    return !gap.machine.empty() && !scope.holds(gap.machine) && !takers.contains(gap.machine);
  });
  for (Gap& gap : fleet_gaps(snapshot)) {
    if (gap.kind == GapKind::no_machine) gaps.push_back(std::move(gap));
  }
  for (PartNeed& need : needs) std::erase_if(need.uses, [&](const PartUse& use) { return !within(use); });
}

ReadingDoubts doubts_of(const std::vector<PartNeed>& needs, const std::vector<Gap>& gaps) {
  const bool any = std::any_of(needs.begin(), needs.end(), [](const PartNeed& need) { return need.doubtful; });
  return any ? reading_doubts(gaps) : ReadingDoubts{};
}

void insist_on_whole(const Snapshot& snapshot) {
  if (snapshot.holds_all()) return;
  throw Failure(FailureKind::internal,
                {"facts-missing", "the facts do not reach: stock is the whole fleet's, so all of them are needed",
                 "take_fleet_snapshot of the record"});
}

}  // namespace service::load
